#include "http/reading.hpp"

#include "sheet/digest.hpp"
#include "text/json_reader.hpp"
#include "text/number.hpp"

namespace bloomset::http {

base::Span whole(base::Sources& words, const char* name, const std::string& written) {
  return {words.add(name, written), 1, 1, static_cast<std::uint32_t>(written.size())};
}

base::Result<text::Node> body_of(const Request& request) {
  base::Sources sources;
  auto body = text::read_json(sources.add("the request", request.body), sources, largest_body);
  if (body && !body->is(text::NodeKind::table)) return base::fail(base::ErrorKind::bad_input, "the request: a body is a JSON object");
  return body;
}

base::Error unread(text::Faults faults) { return {base::ErrorKind::bad_input, "the request cannot be read", std::move(faults)}; }

std::optional<int> serves_of(const text::Fields& fields, text::Faults& faults) {
  const text::Node* serves = fields.integer("serves");
  if (serves == nullptr) return std::nullopt;
  if (serves->integer >= 1 && serves->integer <= 10000) return static_cast<int>(serves->integer);
  text::fault(faults, serves->span, "serves_out_of_range", "`serves` is a number from 1 to 10000");
  return std::nullopt;
}

std::string text_of(const text::Fields& fields, std::string_view key) {
  fields.require(key);
  const text::Node* node = fields.string(key);
  return node != nullptr ? node->string : "";
}

std::vector<std::string> texts_of(const text::Fields& fields, std::string_view key, text::Faults& faults) {
  std::vector<std::string> all;
  if (const text::Node* list = fields.array(key))
    for (const text::Node& item : list->items) {
      if (!item.is(text::NodeKind::string)) text::fault_kind(faults, item, "a text");
      all.push_back(item.string);
    }
  return all;
}

Size size_of(const text::Fields& fields, text::Faults& faults) {
  Size size{serves_of(fields, faults), std::nullopt, std::nullopt};
  if (const text::Node* table = fields.table("fit")) {
    const text::Fields fit(*table, "a fit", {"part", "vessel"}, faults);
    size.fit = sheet::Fit{text_of(fit, "part"), text_of(fit, "vessel"), {}};
  }
  if (const text::Node* have = fields.string("have")) size.have = have->string;
  if (size.fit && size.have) text::fault(faults, {}, "fit_and_have", "`fit` and `have` do not go together");
  return size;
}

sheet::Inputs Document::inputs(std::optional<int> serves) const { return {*formula, stock->larder, stock->kit, serves, sheet::all_texts(sources)}; }

base::Result<Document> read_document(House& house, const std::string& name, std::string text) {
  auto stock = house.stock();
  if (!stock) return tl::unexpected(std::move(stock.error()));
  base::Sources sources;
  auto formula = formula::read(name, std::move(text), sources, house.borrower());
  return Document{std::move(sources), std::move(*stock), std::move(formula)};
}

tl::expected<sheet::Scaled, Untold> scaled(const Document& document, const Size& size) {
  const sheet::Inputs in = document.inputs(size.serves);
  base::Sources words;
  base::Result<sheet::Scaled> made = sheet::Scaled{in.formula, size.serves.value_or(in.formula.serves), {}};
  if (size.fit) {
    made = sheet::fit(in, {size.fit->part, size.fit->vessel, whole(words, "fit", size.fit->vessel)});
  } else if (size.have) {
    text::Faults faults;
    const base::Span span = whole(words, "have", *size.have);
    auto thing = formula::read_take(*size.have, span, in.formula.measures, faults);
    if (!thing) return tl::unexpected(Untold{{base::ErrorKind::bad_input, "what there is cannot be read", std::move(faults)}, std::move(words)});
    made = sheet::have(in, {std::move(*thing), span});
  }
  if (made) return std::move(*made);
  return tl::unexpected(Untold{std::move(made.error()), std::move(words)});
}

}  // namespace bloomset::http
