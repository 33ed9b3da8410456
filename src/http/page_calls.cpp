// http/page_calls.cpp - what the page asks beside the bench: the counter, a pasted list, revisions side by side, larder and kit, words and names.
#include <algorithm>
#include <charconv>

#include "http/answer.hpp"
#include "http/reading.hpp"
#include "press/page_json.hpp"
#include "text/number.hpp"

namespace bloomset::http {
namespace {

// A larder thing's own numbers, by the keys of its document; of a pack only the currency is a text.
larder::Draft draft_of(const text::Fields& fields, text::Faults& faults) {
  larder::Draft draft;
  draft.name = text_of(fields, "name");
  if (const text::Node* like = fields.string("like")) draft.like = like->string;
  draft.also = texts_of(fields, "also", faults);
  for (const char* group : {"numbers", "pack"}) {
    const text::Node* table = fields.table(group);
    if (table == nullptr) continue;
    for (const text::Node& item : table->items)
      if (item.is(text::NodeKind::integer) || item.is(text::NodeKind::number))
        draft.numbers.emplace_back(item.key, item.number);
      else if (item.key == "currency" && item.is(text::NodeKind::string))
        draft.currency = item.string;
      else
        text::fault_kind(faults, item, "a number");
  }
  return draft;
}

}  // namespace

Reply counter(Call& call) {
  const auto body = body_of(call.request);
  if (!body) return refusal(body.error());
  text::Faults faults;
  const text::Fields fields(*body, "the request", {"text", "serves"}, faults);
  std::string text = text_of(fields, "text");
  const auto serves = serves_of(fields, faults);
  if (!faults.empty()) return refusal(unread(std::move(faults)));
  const auto document = read_document(call.house, unnamed, std::move(text));
  if (!document) return refusal(document.error());
  if (!document->formula) return refusal(document->formula.error(), document->sources);
  const auto made = sheet::make_counter(document->inputs(serves));
  if (!made) return refusal(made.error(), document->sources);
  return answer(press::counter_json(*made, *document->formula, document->sources));
}

Reply lines(Call& call) {
  const auto body = body_of(call.request);
  if (!body) return refusal(body.error());
  text::Faults faults;
  const text::Fields fields(*body, "the request", {"lines", "text"}, faults);
  const std::string pasted = text_of(fields, "lines");
  const text::Node* into = fields.string("text");
  if (!faults.empty()) return refusal(unread(std::move(faults)));
  const auto stock = call.house.stock();
  if (!stock) return refusal(stock.error());
  const auto read = sheet::read_lines(pasted, into != nullptr ? into->string : "", (*stock)->larder);
  if (!read) return refusal(read.error());
  return answer(press::lines_json(*read, pasted));
}

Reply compare(Call& call) {
  const auto body = body_of(call.request);
  if (!body) return refusal(body.error());
  text::Faults faults;
  const text::Fields fields(*body, "the request", {"before", "after"}, faults);
  const std::string before = text_of(fields, "before"), after = text_of(fields, "after");
  if (!faults.empty()) return refusal(unread(std::move(faults)));
  return answer(press::compare_json(before, after));
}

Reply larder(Call& call) {
  const auto stock = call.house.stock();
  return stock ? answer(press::larder_json((*stock)->larder)) : refusal(stock.error());
}

Reply kit(Call& call) {
  const auto stock = call.house.stock();
  return stock ? answer(press::kit_json((*stock)->kit)) : refusal(stock.error());
}

Reply draft(Call& call) {
  const auto body = body_of(call.request);
  if (!body) return refusal(body.error());
  text::Faults faults;
  const text::Fields fields(*body, "the request", {"name", "like", "numbers", "pack", "also"}, faults);
  const larder::Draft draft = draft_of(fields, faults);
  if (!faults.empty()) return refusal(unread(std::move(faults)));
  const auto stock = call.house.stock();
  return stock ? answer(press::draft_json(draft, (*stock)->larder)) : refusal(stock.error());
}

Reply read(Call& call) {
  const auto body = body_of(call.request);
  if (!body) return refusal(body.error());
  text::Faults faults;
  const text::Fields fields(*body, "the request", {"kind", "text"}, faults);
  const std::string kind = text_of(fields, "kind"), text = text_of(fields, "text");
  if (faults.empty() && kind != "formula" && kind != "larder" && kind != "kit")
    text::fault(faults, {}, "unknown_kind", "`" + kind + "` is no kind of document that can be read", "formula, larder or kit");
  if (!faults.empty()) return refusal(unread(std::move(faults)));
  const auto stock = call.house.stock();
  if (!stock) return refusal(stock.error());
  const auto as = kind == "larder" ? press::ReadKind::larder : kind == "kit" ? press::ReadKind::kit : press::ReadKind::formula;
  return answer(press::read_json(as, kind, text, (*stock)->larder, (*stock)->kit, call.house.borrower()));
}

Reply words(Call&) { return answer(press::words_json()); }

Reply names(Call& call) {
  constexpr std::size_t usual = 12, at_most = 200;
  const std::string written = call.request.query("most");
  std::size_t most = usual;
  if (!written.empty()) {
    const auto [end, fault] = std::from_chars(written.data(), written.data() + written.size(), most);
    if (fault != std::errc() || end != written.data() + written.size() || most < 1)
      return refusal(400, "bad_input", "`most` is a number from 1 to " + std::to_string(at_most));
  }
  const auto stock = call.house.stock();
  if (!stock) return refusal(stock.error());
  return answer(press::names_json((*stock)->larder, call.request.query("words"), std::min(most, at_most)));
}

}  // namespace bloomset::http
