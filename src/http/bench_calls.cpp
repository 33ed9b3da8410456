// http/bench_calls.cpp - a text and what is to be done with it, in; the text after that, what it says, and its sheet, out. Nothing is stored.
#include <thread>

#include "http/answer.hpp"
#include "http/changes.hpp"
#include "http/reading.hpp"
#include "press/json.hpp"
#include "press/outline_json.hpp"
#include "press/press.hpp"
#include "solve/whiskers.hpp"
#include "text/json_reader.hpp"
#include "text/number.hpp"

namespace bloomset::http {
namespace {

using text::Json;

base::Result<sheet::Sheet> sheet_of(const Document& document, const sheet::Scaled& at) {
  sheet::Inputs in = document.inputs(at.serves);
  auto made = sheet::make_sheet({at.formula, in.larder, in.kit, at.serves, std::move(in.formula_text)});
  if (made) made->findings.insert(made->findings.end(), at.findings.begin(), at.findings.end());
  return made;
}

// The sheet's document stands inside the bench's as it was printed: it is made once, by press.
std::string bench_document(const std::string& text, const Json& outline, const std::string& sheet, const Json& faults) {
  return R"({"schema":1,"text":)" + Json(text).print() + R"(,"outline":)" + outline.print() + R"(,"sheet":)" + sheet + R"(,"faults":)" + faults.print() + "}\n";
}

// The document as it now is, and its sheet at that size, or why it has none.
Reply bench_reply(const Document& document, const std::string& text, const sheet::Scaled& at) {
  const Json outline = press::outline_json(*document.formula, document.sources);
  const auto made = sheet_of(document, at);
  if (!made) return answer(bench_document(text, outline, "null", faults_json(made.error().diagnostics, document.sources)));
  return answer(bench_document(text, outline, press::sheet_json(*made, document.sources), faults_json(document.stock->left_out, document.stock->sources)));
}

// How far the serve's readings swing.
base::Result<press::Whiskers> whiskers_of(const Document& document, const sheet::Scaled& at) {
  solve::Course course;
  course.threads = std::max(1U, std::thread::hardware_concurrency());
  const sheet::Inputs in = document.inputs(at.serves);
  return solve::whiskers({at.formula, in.larder, in.kit, at.serves, {}}, course);
}

}  // namespace

Reply bench(Call& call) {
  const auto body = body_of(call.request);
  if (!body) return refusal(body.error());
  text::Faults faults;
  const text::Fields fields(*body, "the request", {"text", "name", "acts", "edits", "serves", "fit", "have"}, faults);
  std::string text = text_of(fields, "text");
  const text::Node* name = fields.string("name");
  std::vector<base::Edit> edits = edits_of(fields, faults);
  const std::vector<formula::Change> acts = acts_of(fields, faults);
  const Size size = size_of(fields, faults);
  if (!faults.empty()) return refusal(unread(std::move(faults)));
  text = base::edited(std::move(text), std::move(edits));
  for (const formula::Change& act : acts) {
    auto after = formula::changed(text, act, call.house.borrower());
    if (!after) {
      base::Sources as_it_was;
      as_it_was.add(name != nullptr ? name->string : unnamed, std::move(text));
      return refusal(after.error(), as_it_was);
    }
    text = std::move(*after);
  }
  const std::string called = name != nullptr ? name->string : unnamed;
  auto document = read_document(call.house, called, text);
  if (document && document->formula && (size.fit || size.have)) {
    const auto to = scaled(*document, size);
    if (!to) return refusal(to.error().error, to.error().sources);
    auto after = resized(std::move(text), *document->formula, *to, call.house.borrower());
    if (!after) return refusal(after.error());
    text = std::move(*after);
    document = read_document(call.house, called, text);  // what comes back and its sheet are one document
    if (document && document->formula) return bench_reply(*document, text, {*document->formula, document->formula->serves, to->findings});
  }
  if (!document) return refusal(document.error());
  if (!document->formula) return answer(bench_document(text, {}, "null", faults_json(document->formula.error().diagnostics, document->sources)));
  return bench_reply(*document, text, {*document->formula, size.serves.value_or(document->formula->serves), {}});
}

Reply sheet(Call& call) {
  const auto body = body_of(call.request);
  if (!body) return refusal(body.error());
  text::Faults faults;
  const text::Fields fields(*body, "the request", {"text", "serves", "fit", "have", "scatter"}, faults);
  std::string text = text_of(fields, "text");
  const Size size = size_of(fields, faults);
  const text::Node* scatter = fields.boolean("scatter");
  if (!faults.empty()) return refusal(unread(std::move(faults)));
  const auto document = read_document(call.house, unnamed, std::move(text));
  if (!document) return refusal(document.error());
  if (!document->formula) return refusal(document->formula.error(), document->sources);
  const auto at = scaled(*document, size);
  if (!at) return refusal(at.error().error, at.error().sources);
  const auto made = sheet_of(*document, *at);
  if (!made) return refusal(made.error(), document->sources);
  press::Whiskers whiskers;
  if (scatter != nullptr && scatter->boolean) {
    LongWorks::Place place = call.works.take();
    if (!place.there()) return busy();
    place.wait_for_turn([] { return false; });
    auto rows = whiskers_of(*document, *at);
    if (!rows) return refusal(rows.error(), document->sources);
    whiskers = std::move(*rows);
  }
  return answer(press::sheet_json(*made, document->sources, whiskers));
}

}  // namespace bloomset::http
