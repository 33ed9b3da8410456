// text/json_reader.cpp - the one file that knows the JSON library.
//
// The library's event interface is used: it neither recurses nor throws, so depth and doubled keys can be refused as they come.
#include "text/json_reader.hpp"

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>
#include <unordered_set>

#include "text/fold.hpp"
#include "text/number.hpp"

namespace bloomset::text {
namespace {

tl::unexpected<base::Error> refuse(std::string_view file, base::Span span, std::string code, const std::string& message) {
  Faults faults;
  fault(faults, span, std::move(code), message);
  return base::fail(base::ErrorKind::bad_input, say({file, ": ", message}), std::move(faults));
}

// Builds the tree event by event; `open` holds the tables and arrays that are not closed yet.
class Builder : public nlohmann::json_sax<nlohmann::json> {
 public:
  Node root;
  std::string code = "not_json", complaint;
  std::size_t stopped_at = 0;

  bool null() override {
    key_.clear();
    return !open_.empty() || refuse_root();
  }
  bool boolean(bool value) override {
    Node node = of(NodeKind::boolean);
    node.boolean = value;
    return add(std::move(node));
  }
  bool number_integer(number_integer_t value) override {
    Node node = of(NodeKind::integer);
    node.integer = value;
    node.number = static_cast<double>(value);
    return add(std::move(node));
  }
  bool number_unsigned(number_unsigned_t value) override {
    if (value > static_cast<number_unsigned_t>(std::numeric_limits<std::int64_t>::max())) return number_float(static_cast<double>(value), {});
    return number_integer(static_cast<number_integer_t>(value));
  }
  bool number_float(number_float_t value, const string_t&) override {
    Node node = of(NodeKind::number);
    node.number = value;
    return add(std::move(node));
  }
  bool string(string_t& value) override {
    Node node = of(NodeKind::string);
    node.string = value;
    return add(std::move(node));
  }
  bool binary(binary_t&) override { return false; }
  bool key(string_t& value) override {
    if (!keys_.back().insert(value).second) return stop("key_twice", say({"the key `", value, "` stands twice"}));
    key_ = value;
    return true;
  }
  bool start_object(std::size_t) override { return start(NodeKind::table); }
  bool start_array(std::size_t) override { return start(NodeKind::array); }
  bool end_object() override { return end(); }
  bool end_array() override { return end(); }
  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception&) override {
    stopped_at = position > 0 ? position - 1 : 0;
    return stop("not_json", "this is not JSON");
  }

 private:
  Node of(NodeKind kind) {
    Node node;
    node.kind = kind;
    node.key = std::move(key_);
    key_.clear();
    return node;
  }
  bool add(Node node) {
    if (open_.empty()) return refuse_root();
    open_.back().items.push_back(std::move(node));
    return true;
  }
  bool start(NodeKind kind) {
    if (open_.size() == deepest_nesting) return stop("too_deep", say({"brackets may nest at most ", std::to_string(deepest_nesting), " deep"}));
    open_.push_back(of(kind));
    keys_.emplace_back();
    return true;
  }
  bool end() {
    Node done = std::move(open_.back());
    open_.pop_back();
    keys_.pop_back();
    if (!open_.empty()) return add(std::move(done));
    root = std::move(done);
    return true;
  }
  bool refuse_root() { return stop("not_a_document", "a document is an object or an array"); }
  bool stop(std::string code_of, std::string words) {
    code = std::move(code_of);
    complaint = std::move(words);
    return false;
  }

  std::vector<Node> open_;
  std::vector<std::unordered_set<std::string>> keys_;  // of the open tables, beside `open_`
  std::string key_;
};

base::Span place(std::uint32_t source, std::string_view text, std::size_t at) {
  at = std::min(at, text.size());
  const std::string_view before = text.substr(0, at);
  const std::size_t line_break = before.rfind('\n'), begin = line_break == std::string_view::npos ? 0 : line_break + 1;
  return {source, static_cast<std::uint32_t>(std::count(before.begin(), before.end(), '\n') + 1), static_cast<std::uint32_t>(at - begin + 1), 1};
}

}  // namespace

base::Result<Node> read_json(std::uint32_t source, const base::Sources& sources, std::size_t most) {
  const std::string_view text = sources.text(source), file = sources.name(source);
  if (text.size() > most)
    return refuse(file, place(source, text, 0), "too_large",
                  say({"this text has ", std::to_string(text.size()), " bytes; a document has at most ", std::to_string(most)}));
  if (const std::size_t bad = first_not_utf8(text); bad != std::string_view::npos)
    return refuse(file, place(source, text, bad), "not_utf8", "this byte is not UTF-8");
  Builder builder;
  if (nlohmann::json::sax_parse(text, &builder)) return std::move(builder.root);
  return refuse(file, place(source, text, builder.stopped_at), builder.code, builder.complaint);
}

}  // namespace bloomset::text
