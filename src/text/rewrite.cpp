#include "text/rewrite.hpp"

#include <algorithm>
#include <array>

namespace bloomset::text {
namespace {

bool is_bare(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-'; }

}  // namespace

std::string toml_string(std::string_view text) {
  constexpr std::string_view hex = "0123456789ABCDEF";
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out.append("\\").append(1, c);
    } else if (byte < 0x20U || byte == 0x7FU) {
      out.append("\\u00").append(1, hex[byte >> 4U]).append(1, hex[byte & 0xFU]);
    } else {
      out += c;
    }
  }
  return out += '"';
}

std::string toml_key(std::string_view key) { return !key.empty() && std::all_of(key.begin(), key.end(), is_bare) ? std::string(key) : toml_string(key); }

std::string toml_list(const std::vector<std::string>& strings) {
  std::string out = "[";
  for (const std::string& one : strings) out.append(&one == strings.data() ? "" : ", ").append(toml_string(one));
  return out.append("]");
}

std::string inline_table(const Members& members) {
  std::string out = "{";
  for (const auto& member : members) out.append(&member == members.data() ? " " : ", ").append(toml_key(member.first)).append(" = ").append(member.second);
  return out.append(" }");
}

Rewrite::Rewrite(std::string_view text, const Node& root)
    : text_(text), newline_(text.find("\r\n") == std::string_view::npos ? "\n" : "\r\n"), root_(root), sections_(sections_of(text)) {}

Extent Rewrite::value(const Node& node) const {
  const std::size_t begin = offset(node);
  return {begin, value_end(text_, begin)};
}

std::string Rewrite::indent_at(std::size_t at) const {
  const std::size_t line = line_begin(text_, at), word = text_.find_first_not_of(" \t", line);
  return std::string(text_.substr(line, std::min(word, text_.size()) - line));
}

bool Rewrite::set_string(const Node& string, std::string_view value_now) {
  const Extent old = value(string);
  const bool plain = old.of(text_).starts_with('\'') && !old.of(text_).starts_with("'''") && toml_string(value_now).size() == value_now.size() + 2 &&
                     value_now.find('\'') == std::string_view::npos;
  return set_value(string, plain ? "'" + std::string(value_now) + "'" : toml_string(value_now));
}

bool Rewrite::set_value(const Node& node, std::string literal) {
  if ((node.is(NodeKind::table) || node.is(NodeKind::array)) && !bracketed(node)) return false;
  const Extent old = value(node);
  splice(old.begin, old.end, std::move(literal));
  return true;
}

bool Rewrite::bracketed(const Node& node) const {
  const std::size_t at = offset(node);
  return at < text_.size() && (text_[at] == '{' || (text_[at] == '[' && std::none_of(sections_.begin(), sections_.end(), [at](const Section& s) {
                                                      return s.header.end > s.header.begin && s.header.begin == at;
                                                    })));
}

bool Rewrite::holds_comment(const Node& node) const {
  const Extent here = value(node);
  for (std::size_t at = here.begin; at < here.end; ++at) {
    if (text_[at] == '"' || text_[at] == '\'')
      at = value_end(text_, at) - 1;
    else if (text_[at] == '#')
      return true;
  }
  return false;
}

const Section* Rewrite::section(const Node& table) const {
  if (&table == &root_) return &sections_.front();
  const std::size_t at = offset(table);
  for (const Section& s : sections_) {
    if (s.header.end == s.header.begin || s.header.begin != at) continue;
    // `[a.b]` alone makes an `a` too, which has no header of its own.
    const std::size_t behind_key = table.key.empty() ? s.header.end : offset_of(text_, table.key_span) + table.key_span.length;
    const std::size_t bracket = std::min(text_.find_first_not_of(" \t", behind_key), text_.size());
    return behind_key >= s.header.end || text_[bracket] == ']' ? &s : nullptr;
  }
  return nullptr;
}

void Rewrite::collect(const Node& table, std::vector<const Section*>& out) const {
  if (const Section* own = table.is(NodeKind::table) ? section(table) : nullptr) out.push_back(own);
  for (const Node& item : table.items)
    if (item.is(NodeKind::table) || item.is(NodeKind::array)) collect(item, out);
}

std::vector<const Section*> Rewrite::sections(const Node& table) const {
  std::vector<const Section*> out;
  collect(table, out);
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

std::size_t Rewrite::end_of_sections(const Node& table) const {
  const auto own = sections(table);
  return own.empty() ? text_.size() : own.back()->end;
}

std::size_t Rewrite::begin_of_sections(const Node& table) const {
  const auto own = sections(table);
  return own.empty() ? text_.size() : own.front()->lead;
}

bool Rewrite::add_to_section(const Section& section, std::string_view key, const std::string& literal, const Node* behind) {
  const Extent* after = nullptr;
  for (const Extent& statement : section.statements)
    if (behind == nullptr || offset_of(text_, behind->key_span) == statement.begin) after = &statement;
  if (after == nullptr && !section.statements.empty()) after = &section.statements.back();
  // The equals sign stands below the one above it where the key leaves room.
  std::string name = toml_key(key);
  if (after != nullptr) {
    const std::size_t blank = text_.find_first_of(" \t=", after->begin), equals = text_.find('=', after->begin);
    const std::size_t width = equals < after->end && blank != std::string_view::npos && blank_between(text_, blank, equals) ? equals - after->begin - 1 : 0;
    if (name.size() < width) name.append(width - name.size(), ' ');
  }
  const bool head = section.header.end == section.header.begin;
  const std::size_t at = after != nullptr ? after->end : section.header.end;
  std::string line = indent_at(after != nullptr ? after->begin : section.header.begin) + name + " = " + literal;
  if (after == nullptr && head) {
    const std::size_t top = text_.starts_with("\xEF\xBB\xBF") ? 3 : 0;
    splice(top, top, line.substr(line.find_first_not_of(" \t")).append(newline_));
  } else {
    const std::size_t end = line_end(text_, at);
    splice(end, end, line.insert(0, newline_));
  }
  return true;
}

bool Rewrite::add_member(const Node& table, std::string_view key, const std::string& literal, std::string_view behind) {
  const Node* after = behind.empty() ? nullptr : table.find(behind);
  if (const Section* own = section(table)) return add_to_section(*own, key, literal, after);
  if (!table.is(NodeKind::table) || !bracketed(table)) return false;
  const Items members = items_at(text_, offset(table));
  const std::string member = toml_key(key) + " = " + literal;
  if (members.items.empty()) {
    splice(members.open, members.close + 1, "{ " + member + " }");
    return true;
  }
  std::size_t at = members.items.back().end;
  for (const Extent& item : members.items)
    if (after != nullptr && offset_of(text_, after->key_span) == item.begin) at = item.end;
  splice(at, at, ", " + member);
  return true;
}

bool Rewrite::remove_member(const Node& table, const Node& member) {
  const std::size_t key = offset_of(text_, member.key_span);
  if (const Section* own = section(table)) {
    for (const Extent& statement : own->statements)
      if (statement.begin == key && (!member.is(NodeKind::table) || bracketed(member))) {
        splice(line_begin(text_, key), next_line(text_, statement.end), "");
        return true;
      }
    return false;
  }
  if (!bracketed(table) || (member.is(NodeKind::table) && !bracketed(member))) return false;
  const Items members = items_at(text_, offset(table));
  for (std::size_t i = 0; i < members.items.size(); ++i) {
    if (members.items[i].begin != key) continue;
    if (i + 1 < members.items.size())
      splice(key, members.items[i + 1].begin, "");
    else if (i > 0)
      splice(members.items[i - 1].end, members.items[i].end, "");
    else
      splice(members.open, members.close + 1, "{ }");
    return true;
  }
  return false;
}

std::string Rewrite::done() const {
  std::vector<Splice> sorted = splices_;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Splice& a, const Splice& b) { return a.begin < b.begin; });
  std::string out;
  std::size_t at = 0;
  for (const Splice& splice : sorted) {
    out.append(text_.substr(at, splice.begin - at)).append(splice.text);
    at = splice.end;
  }
  return out.append(text_.substr(at));
}

void Rewrite::add_lines(std::size_t at, std::string lines) {
  if (at > 0 && text_[at - 1] != '\n') lines.insert(0, newline_);
  splice(at, at, std::move(lines));
}

}  // namespace bloomset::text
