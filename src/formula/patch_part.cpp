// formula/patch_part.cpp - parts and the serve: new ones, their names wherever they are used, and a line into a document that may still be empty.
//
// A part's name stands in single quotes in takes and targets, and bare in `leave` where its pieces are left behind. Takes are read as the reader reads
// them, so that `'mark'` is never taken for a part, nor an apostrophe for a quote.
#include <algorithm>

#include "formula/patching.hpp"
#include "text/fold.hpp"

namespace bloomset::formula {
namespace {

using text::Node;
using text::NodeKind;

constexpr std::string_view first_glass = "low glass, 300 mL", first_part = "mix";

// Lines with the end of line that the text has.
std::string in_ends_of(std::string_view lines, const std::string& text) {
  std::string out(lines);
  if (text.find("\r\n") == std::string::npos) return out;
  for (std::size_t at = out.find('\n'); at != std::string::npos; at = out.find('\n', at + 2)) out.insert(at, "\r");
  return out;
}

// A part in our spelling, with one step.
std::string part_lines(std::string_view name, std::string_view made, const std::string& take) {
  std::string out = "[[part]]\nname = " + text::toml_string(name) + "\nmade = " + text::toml_string(made) + "\n  [[part.step]]\n";
  return out + (take.empty() ? "  do = \"combine\"\n" : "  do   = \"combine\"\n  take = [" + text::toml_string(take) + "]\n");
}

// The first word that a name in quotes may be, and where it stands in a text read as a take; nothing where the take is of something bought, or no take.
std::optional<base::Span> made_name(const Patch& patch, const std::string& take) {
  text::Faults ignored;
  const base::Span origin{0, 1, 1, static_cast<std::uint32_t>(take.size())};
  const auto read = read_take(take, origin, patch.measures, ignored);
  if (!read || read->kind != ThingKind::made) return std::nullopt;
  return base::Span{0, 1, read->thing_span.column, static_cast<std::uint32_t>(read->thing.size())};
}

class Renaming {
 public:
  Renaming(Patch& patch, const std::string& old) : patch_(patch), old_(text::fold(old)) {}

  void steps(const Node* list) {
    if (!list || !list->is(NodeKind::array)) return;
    for (const Node& step : list->items)
      if (const Node* takes = step.find("take"); takes && takes->is(NodeKind::array))
        for (const Node& item : takes->items) take(item.is(NodeKind::table) ? item.find("take") : &item);
    for (const Node& step : list->items) {
      take(step.find("ice"));
      if (const Node* bath = step.find("bath")) take(bath->find("in"));
      if (const Node* leave = step.find("leave"); leave && !bought_of_that_name(*list))
        for (const Node& name : leave->items)
          if (name.is(NodeKind::string) && text::fold(name.string) == old_) patch_.rewrite.set_string(name, patch_.value());
    }
  }

  void targets(const Node* list) {
    if (!list || !list->is(NodeKind::array)) return;
    for (const Node& target : list->items) {
      if (!target.is(NodeKind::string) || !target.string.starts_with('\'')) continue;
      const auto close = target.string.find('\'', 1);
      if (close == std::string::npos || text::fold(target.string.substr(1, close - 1)) != old_) continue;
      patch_.rewrite.set_string(target, std::string(target.string).replace(1, close - 1, patch_.value()));
    }
  }

 private:
  void take(const Node* string) {
    if (!string || !string->is(NodeKind::string)) return;
    const auto place = made_name(patch_, string->string);
    if (!place || text::fold(string->string.substr(place->column - 1, place->length)) != old_) return;
    patch_.rewrite.set_string(*string, std::string(string->string).replace(place->column - 1, place->length, patch_.value()));
  }

  bool bought_of_that_name(const Node& steps) const {
    for (const Node& step : steps.items)
      if (const Node* takes = step.find("take"))
        for (const Node& item : takes->items) {
          const Node* string = item.is(NodeKind::table) ? item.find("take") : &item;
          text::Faults ignored;
          if (!string || !string->is(NodeKind::string)) continue;
          const auto read = read_take(string->string, {}, patch_.measures, ignored);
          if (read && read->kind == ThingKind::bought && text::fold(read->thing) == old_) return true;
        }
    return false;
  }

  Patch& patch_;
  std::string old_;
};

// Where a new part goes: behind the last, before the serve, at the end.
std::size_t place_of_new_part(const Patch& patch) {
  if (const Node* parts = patch.own_parts()) return patch.rewrite.end_of_sections(*parts);
  const Node* serve = patch.root.find("serve");
  return serve ? patch.rewrite.begin_of_sections(*serve) : patch.text.size();
}

bool add_part_lines(Patch& patch, std::string_view name, std::string_view made, const std::string& take, const std::string& behind = {}) {
  const Node* parts = patch.own_parts();
  if (!parts && patch.root.find("part")) return false;  // something else bears the name
  if (parts && patch.rewrite.bracketed(*parts)) {
    text::Members step = {{"do", "\"combine\""}};
    if (!take.empty()) step.emplace_back("take", "[" + text::toml_string(take) + "]");
    const text::Members part = {{"name", text::toml_string(name)}, {"made", text::toml_string(made)}, {"step", "[" + text::inline_table(step) + "]"}};
    return patch.rewrite.add_item(*parts, parts->items.size(), text::inline_table(part));
  }
  const std::size_t at = place_of_new_part(patch);
  const std::string_view before = std::string_view(patch.text).substr(0, at);
  std::string lines = part_lines(name, made, take) + behind;
  if (!before.empty() && !before.ends_with("\n\n") && !before.ends_with("\n\r\n")) lines.insert(0, "\n");
  if (at < patch.text.size() && patch.text[at] != '\n' && patch.text[at] != '\r') lines.append("\n");
  patch.rewrite.add_lines(at, in_ends_of(lines, patch.text));
  return true;
}

// The last step that takes something; without one the first.
const Node* step_for_a_line(const Node* steps) {
  if (!steps || steps->items.empty()) return nullptr;
  for (auto step = steps->items.rbegin(); step != steps->items.rend(); ++step)
    if (const Node* takes = step->find("take"); takes && !takes->items.empty()) return &*step;
  return &steps->items.front();
}

}  // namespace

Patched set_made(Patch& patch) {
  const auto owner = patch.owner(patch.change.part);
  if (!owner) return tl::unexpected(owner.error());
  if (patch.is_serve(**owner)) return cannot("the serve is neither made ahead nor to order");
  if (patch.value() != "ahead" && patch.value() != "to order") return cannot("a part is made \"ahead\" or \"to order\"");
  if (const Node* made = (*owner)->find("made")) return patch.done(patch.rewrite.set_string(*made, patch.value()), "`made`");
  return patch.done(patch.rewrite.add_member(**owner, "made", text::toml_string(patch.value()), "name"), "the part");
}

Patched set_vessel(Patch& patch) {
  const Node* serve = patch.root.find("serve");
  if (!serve || !serve->is(NodeKind::table)) return cannot("the document has no serve");
  if (const Node* vessel = serve->find("vessel")) return patch.done(patch.rewrite.set_string(*vessel, patch.value()), "`vessel`");
  return patch.done(patch.rewrite.add_member(*serve, "vessel", text::toml_string(patch.value())), "the serve");
}

Patched set_name(Patch& patch) {
  const auto owner = patch.owner(patch.change.part);
  if (!owner) return tl::unexpected(owner.error());
  if (patch.is_serve(**owner)) return cannot("the serve has no name");
  const Node* name = (*owner)->find("name");
  if (!name) return patch.done(patch.rewrite.add_member(**owner, "name", text::toml_string(patch.value())), "the part");
  if (!name->is(NodeKind::string)) return cannot("the part's name is not a text");
  // A name that would part a take in the wrong place cannot be put into takes.
  if (patch.value().empty() || patch.value().find_first_of("'/") != std::string::npos) return cannot("a part's name may not be empty, nor hold ' or /");
  patch.rewrite.set_string(*name, patch.value());
  Renaming renaming(patch, name->string);
  for (const Node& part : patch.own_parts()->items) renaming.steps(part.find("step"));
  if (const Node* serve = patch.root.find("serve")) renaming.steps(serve->find("pour"));
  renaming.targets(patch.root.find("targets"));
  return patch.done();
}

Patched add_part(Patch& patch) {
  if (patch.change.made != "ahead" && patch.change.made != "to order") return cannot("a part is made \"ahead\" or \"to order\"");
  return patch.done(add_part_lines(patch, patch.value(), patch.change.made, {}), "the list of parts");
}

Patched remove_part(Patch& patch) {
  const auto owner = patch.owner(patch.change.part);
  if (!owner) return tl::unexpected(owner.error());
  if (patch.is_serve(**owner))
    return patch.done(patch.rewrite.bracketed(**owner) ? patch.rewrite.remove_member(patch.root, **owner) : patch.rewrite.remove_sections(**owner),
                      "the serve");
  return patch.done(patch.rewrite.remove_item(*patch.own_parts(), patch.change.part - 1), "the part");
}

Patched add_line(Patch& patch) {
  const std::string literal = text::toml_string(patch.value());
  const Node* parts = patch.own_parts();
  const Node* serve = patch.root.find("serve");
  const Node* owner = parts && !parts->items.empty() ? &parts->items.back() : serve;
  if (owner) {
    const Node* step = step_for_a_line(patch.steps(*owner));
    if (!step) return cannot("the last part has no step to take it");
    const Node* takes = step->find("take");
    if (!takes) return patch.done(patch.rewrite.add_member(*step, "take", "[" + literal + "]", "do"), "the step");
    if (!takes->is(NodeKind::array)) return cannot("`take` is not a list: write it in square brackets");
    return patch.done(patch.rewrite.add_item(*takes, takes->items.size(), literal), "`take`");
  }
  std::string head;
  if (!patch.root.find("bloomset")) head += "bloomset = 1\n";
  if (!patch.root.find("title")) head += "title = \"Untitled\"\n";
  const std::string serve_lines =
      "\n[serve]\nvessel = " + text::toml_string(first_glass) + "\npour = [\n  { take = [\"all '" + std::string(first_part) + "'\"] },\n]\n";
  if (!add_part_lines(patch, first_part, "to order", patch.value(), serve_lines)) return out_of_reach("the list of parts");
  std::string out = patch.rewrite.done();
  const std::size_t top = out.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  if (!head.empty() && out.compare(top, 2, "[[") == 0) head += "\n";
  return out.insert(top, in_ends_of(head, patch.text));
}

}  // namespace bloomset::formula
