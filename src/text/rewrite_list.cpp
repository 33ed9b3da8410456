// text/rewrite_list.cpp - lists changed in place: on one line, over several lines with comments, and lists of tables written as sections.
//
// An item that has its lines for itself takes the comment behind it along. A comma is put or taken so that the list stays one; a comma behind the
// last item is kept where there was one.
#include <algorithm>

#include "text/rewrite.hpp"

namespace bloomset::text {
namespace {

constexpr std::size_t no_comma = std::string_view::npos;

}  // namespace

// Only blanks before it, and only its comma, blanks and a comment behind it.
bool Rewrite::alone_on_lines(const Items& list, std::size_t index) const {
  const Extent item = list.items[index];
  if (!blank_between(text_, line_begin(text_, item.begin), item.begin) || line_begin(text_, item.begin) <= list.open) return false;
  std::size_t at = item.end;
  if (list.commas[index] != no_comma) {
    if (!blank_between(text_, item.end, list.commas[index])) return false;
    at = list.commas[index] + 1;
  }
  const std::size_t end = line_end(text_, at), word = std::min(text_.find_first_not_of(" \t", at), end);
  return word == end || text_[word] == '#';
}

bool Rewrite::add_item(const Node& node, std::size_t before, const std::string& literal) {
  if (!bracketed(node)) return false;
  const Items list = items_at(text_, offset(node));
  if (list.items.empty()) {
    splice(list.open + 1, list.open + 1, literal);
    return true;
  }
  const bool first = before == 0;
  const std::size_t neighbour = first ? 0 : std::min(before, list.items.size()) - 1;
  const Extent item = list.items[neighbour];
  const bool lines = blank_between(text_, line_begin(text_, item.begin), item.begin) && line_begin(text_, item.begin) > list.open;
  const std::string indent = indent_at(item.begin);
  if (first) {
    if (lines && blank_between(text_, list.open + 1, line_end(text_, list.open))) {
      const std::size_t end = line_end(text_, list.open);
      splice(end, end, std::string(newline_) + indent + literal + ",");
    } else {
      splice(item.begin, item.begin, lines ? literal + "," + std::string(newline_) + indent : literal + ", ");
    }
    return true;
  }
  const std::size_t comma = list.commas[neighbour];
  if (comma == no_comma) splice(item.end, item.end, ",");
  const std::size_t behind = comma == no_comma ? item.end : comma + 1, end = line_end(text_, behind);
  const bool closes_here = list.close < end;
  const bool next_here = neighbour + 1 < list.items.size() && list.items[neighbour + 1].begin < end;
  if (lines && !next_here) {
    const std::size_t at = closes_here ? behind : end;
    splice(at, at, std::string(newline_) + indent + literal + (comma == no_comma ? "" : ","));
  } else {
    splice(behind, behind, " " + literal + (comma == no_comma ? "" : ","));
  }
  return true;
}

bool Rewrite::remove_item(const Node& node, std::size_t index) {
  if (!bracketed(node)) return remove_sections(node.items[index]);
  const Items list = items_at(text_, offset(node));
  const Extent item = list.items[index];
  const std::size_t comma = list.commas[index];
  if (alone_on_lines(list, index)) {
    splice(line_begin(text_, item.begin), next_line(text_, comma == no_comma ? item.end : comma + 1), "");
    return true;
  }
  if (comma != no_comma) {
    splice(item.begin, item.end, "");
    std::size_t behind = comma + 1;
    while (behind < text_.size() && (text_[behind] == ' ' || text_[behind] == '\t')) ++behind;
    // The blank before `]` stays.
    splice(comma, index + 1 < list.items.size() ? behind : comma + 1, "");
    return true;
  }
  const bool close_to_last = index > 0 && blank_between(text_, list.commas[index - 1] + 1, item.begin);
  splice(close_to_last ? list.commas[index - 1] : item.begin, item.end, "");
  return true;
}

bool Rewrite::swap_items(const Node& node, std::size_t index) {
  if (!bracketed(node)) {
    const auto a = sections(node.items[index]), b = sections(node.items[index + 1]);
    // Sections that stand apart are left alone: between them might be what belongs to neither.
    for (const auto* list : {&a, &b})
      if (list->empty() || static_cast<std::size_t>(list->back() - list->front()) + 1 != list->size()) return false;
    if (a.back() >= b.front()) return false;
    swap_sections(a, b);
    return true;
  }
  const Items list = items_at(text_, offset(node));
  const Extent a = list.items[index], b = list.items[index + 1];
  splice(a.begin, a.end, std::string(b.of(text_)));
  splice(b.begin, b.end, std::string(a.of(text_)));
  if (!alone_on_lines(list, index) || !alone_on_lines(list, index + 1)) return true;
  const auto tail = [&](std::size_t i) {
    const std::size_t begin = list.commas[i] == no_comma ? list.items[i].end : list.commas[i] + 1;
    return Extent{begin, line_end(text_, begin)};
  };
  const Extent behind_a = tail(index), behind_b = tail(index + 1);
  splice(behind_a.begin, behind_a.end, std::string(behind_b.of(text_)));
  splice(behind_b.begin, behind_b.end, std::string(behind_a.of(text_)));
  return true;
}

bool Rewrite::add_table(const Node& list, std::size_t before, const Members& members) {
  if (bracketed(list)) return add_item(list, before, inline_table(members));
  if (list.items.empty()) return false;
  const std::size_t neighbour = before == 0 ? 0 : std::min(before, list.items.size()) - 1;
  const Section* like = section(list.items[neighbour]);
  if (like == nullptr) return false;
  const std::string indent = indent_at(like->header.begin), inner = like->statements.empty() ? indent : indent_at(like->statements.front().begin);
  std::string lines = indent + std::string(like->header.of(text_)) + std::string(newline_);
  std::size_t widest = 0;
  for (const auto& member : members) widest = std::max(widest, toml_key(member.first).size());
  for (const auto& [key, literal] : members) {
    std::string name = toml_key(key);
    name.append(widest - name.size(), ' ');
    lines.append(inner).append(name).append(" = ").append(literal).append(newline_);
  }
  // An empty line between tables where there is one already.
  const bool apart = list.items.size() > 1 && line_begin(text_, begin_of_sections(list.items[1])) > end_of_sections(list.items[0]);
  if (before == 0) {
    add_lines(begin_of_sections(list.items[0]), apart ? lines.append(newline_) : lines);
  } else {
    add_lines(end_of_sections(list.items[neighbour]), apart ? lines.insert(0, newline_) : lines);
  }
  return true;
}

bool Rewrite::remove_sections(const Node& table) {
  const auto own = sections(table);
  for (std::size_t from = 0, to = 0; from < own.size(); from = to) {
    for (to = from + 1; to < own.size() && own[to] == own[to - 1] + 1;) ++to;
    const std::size_t begin = own[from]->lead;
    std::size_t end = own[to - 1]->end;
    // Of two empty lines that meet, one goes.
    const bool empty_before = begin == 0 || text_.substr(0, begin).ends_with(std::string(newline_) + std::string(newline_));
    if (empty_before && end < text_.size() && line_end(text_, end) == end) end = next_line(text_, end);
    splice(begin, end, "");
  }
  return !own.empty();
}

void Rewrite::swap_sections(const std::vector<const Section*>& a, const std::vector<const Section*>& b) {
  const Extent first{a.front()->lead, a.back()->end}, second{b.front()->lead, b.back()->end};
  std::string up(second.of(text_)), down(first.of(text_));
  if (!up.ends_with('\n')) {  // the last line of the text
    up.append(newline_);
    down.resize(down.size() - newline_.size());
  }
  splice(first.begin, first.end, std::move(up));
  splice(second.begin, second.end, std::move(down));
}

}  // namespace bloomset::text
