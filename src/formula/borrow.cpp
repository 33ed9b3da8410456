// formula/borrow.cpp - fetches borrowed parts.
//
// A borrowed part brings along the parts of its own file that it is made of. Each file is read once. A file that is
// already open further up would never end: a fault. At most 8 files deep and 64 files in all.
#include "formula/borrow.hpp"

#include <algorithm>
#include <set>

#include "formula/reading.hpp"
#include "text/fold.hpp"

namespace bloomset::formula {
namespace {

constexpr std::size_t deepest = 8, most_files = 64;

using PartsByName = std::map<std::string, const Part*>;

PartsByName parts_by_name(const Formula& formula) {
  PartsByName parts;
  for (const Part& part : formula.parts) parts.emplace(text::fold(part.name), &part);
  return parts;
}

// The part of that name and every part that it takes, and that those take.
std::set<const Part*> needed_for(const std::string& folded, const PartsByName& parts) {
  std::set<const Part*> needed;
  std::vector<std::string> waiting = {folded};
  while (!waiting.empty()) {
    const auto found = parts.find(waiting.back());
    waiting.pop_back();
    if (found == parts.end() || !needed.insert(found->second).second) continue;
    const Part* part = found->second;
    const auto see = [&](const Take& take) {
      if (take.kind == ThingKind::made) waiting.push_back(text::fold(take.thing));
    };
    for (const Step& step : part->steps) {
      for (const Take& take : step.takes) see(take);
      if (step.ice) see(*step.ice);
      if (step.bath) see(step.bath->in);
    }
  }
  return needed;
}

std::shared_ptr<Formula> open_file(const Borrow& borrow, Files& files) {
  Reading reading{files.faults};
  if (const auto read = files.read.find(borrow.file); read != files.read.end()) return read->second;
  files.read.emplace(borrow.file, nullptr);
  if (files.read.size() > most_files || files.open.size() > deepest) {
    reading.fault(borrow.span, "borrow_limit", "too many files are borrowed from", "at most 64 files, 8 deep");
    return nullptr;
  }
  const auto text = files.borrower ? files.borrower(borrow.file) : std::nullopt;
  if (!text) {
    reading.fault(borrow.span, "no_such_file", text::say({"there is no file ", text::ticked(borrow.file), " to borrow from"}),
                  "only files beside this document, or in folders below it, may be borrowed from");
    return nullptr;
  }
  auto document = read_document(borrow.file, *text, files);
  files.read[borrow.file] = document;
  return document;
}

}  // namespace

std::vector<Part> borrowed_parts(const Formula& formula, Files& files) {
  std::vector<Part> parts;
  for (const Borrow& borrow : formula.borrow) {
    Reading reading{files.faults};
    if (std::find(files.open.begin(), files.open.end(), borrow.file) != files.open.end()) {
      reading.fault(borrow.span, "borrow_cycle", text::say({text::ticked(borrow.file), " borrows from itself in the end"}));
      continue;
    }
    const auto document = open_file(borrow, files);
    if (!document) continue;
    const std::string wanted = text::fold(borrow.part);
    const PartsByName by_name = parts_by_name(*document);
    if (!by_name.contains(wanted)) {
      std::vector<std::string> names;
      for (const Part& part : document->parts) names.push_back(part.name);
      const std::string near = base::nearest(borrow.part, names);
      reading.fault(borrow.span, "unknown_part", text::say({text::ticked(borrow.file), " has no part ", text::ticked(borrow.part)}),
                    near.empty() ? "" : text::say({"did you mean ", text::ticked(near), "?"}));
      continue;
    }
    const std::set<const Part*> needed = needed_for(wanted, by_name);
    for (const Part& part : document->parts) {
      if (!needed.contains(&part)) continue;
      const bool there = std::any_of(parts.begin(), parts.end(), [&](const Part& other) { return other.source == part.source && other.name == part.name; });
      if (!there) parts.push_back(part);
    }
  }
  return parts;
}

}  // namespace bloomset::formula
