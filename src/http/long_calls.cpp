// http/long_calls.cpp - works of seconds: lines of JSON while they go on, and at their end the command line's document. Closing the connection cancels.
#include <thread>

#include "http/answer.hpp"
#include "http/reading.hpp"
#include "press/press.hpp"
#include "solve/balance.hpp"
#include "solve/code_holds.hpp"
#include "text/number.hpp"

namespace bloomset::http {
namespace {

using text::Json;

std::string error_line(const base::Error& error, const base::Sources& sources) {
  Json out = Json::object();
  return out.set("error", error_json(error, sources)).print() + "\n";
}

// The document goes out on one line: blanks between its members are all that printing put there.
std::string done_line(std::string document) {
  std::string line = "{\"done\":";
  for (std::size_t at = 0; at < document.size(); ++at) {
    if (document[at] != '\n') {
      line += document[at];
      continue;
    }
    while (at + 1 < document.size() && document[at + 1] == ' ') ++at;
  }
  return line + "}\n";
}

// Says how far it is, at most once a hundredth, and finds out whether anybody still listens.
class Course {
 public:
  // Apart, or g++ 12 says in a checked build that std::stop_source is read before it is made.
  [[gnu::noinline]] explicit Course(Line& line) : line_(line) {}
  std::stop_token token() const { return stop_.get_token(); }
  bool goes_on() {
    if (!stop_.stop_requested() && line_.gone()) stop_.request_stop();
    return !stop_.stop_requested();
  }
  void progress(double share) {
    const int percent = static_cast<int>(100.0 * share);
    if (!goes_on() || percent == last_) return;
    last_ = percent;
    Json out = Json::object();
    if (!line_.send(out.set("progress", 0.01 * percent).print() + "\n")) stop_.request_stop();
  }

 private:
  Line& line_;
  std::stop_source stop_;
  int last_ = -1;
};

// What `balance` is asked: a document, and wishes and things in texts of their own.
struct Question {
  explicit Question(Document read) : document(std::move(read)) {}
  Document document;
  base::Sources words;
  std::vector<formula::Target> targets;
  std::vector<solve::Vary> vary;
};

// A reply whose body is made while it is sent. `work` answers the last line; it is called in its turn.
Reply in_its_turn(Call& call, std::function<std::string(Course&)> work) {
  auto place = std::make_shared<LongWorks::Place>(call.works.take());
  if (!place->there()) return busy();
  Reply reply{200, "application/x-ndjson", {}, {}, {}};
  reply.stream = [place, work = std::move(work)](Line& line) {
    Course course(line);
    course.progress(0.0);
    if (place->wait_for_turn([&line] { return line.gone(); })) line.send(work(course));
  };
  return reply;
}

}  // namespace

Reply balance(Call& call) {
  const auto body = body_of(call.request);
  if (!body) return refusal(body.error());
  text::Faults faults;
  const text::Fields fields(*body, "the request", {"text", "targets", "vary", "serves", "exact"}, faults);
  std::string text = text_of(fields, "text");
  const auto serves = serves_of(fields, faults);
  const std::vector<std::string> targets = texts_of(fields, "targets", faults), vary = texts_of(fields, "vary", faults);
  const text::Node* exact = fields.boolean("exact");
  if (!faults.empty()) return refusal(unread(std::move(faults)));
  auto read = read_document(call.house, unnamed, std::move(text));
  if (!read) return refusal(read.error());
  if (!read->formula) return refusal(read->formula.error(), read->sources);
  auto question = std::make_shared<Question>(std::move(*read));
  const formula::Formula& formula = *question->document.formula;
  for (const std::string& written : targets)
    if (auto target = formula::read_target_text({written, whole(question->words, "targets", written)}, formula.measures, faults))
      question->targets.push_back(std::move(*target));
  for (const std::string& written : vary)
    if (auto one = solve::read_vary(written, whole(question->words, "vary", written), formula.measures, faults)) question->vary.push_back(std::move(*one));
  if (!faults.empty()) return refusal({base::ErrorKind::bad_input, "the question cannot be read", std::move(faults)}, question->words);
  return in_its_turn(call, [question, serves, exact = exact != nullptr && exact->boolean](Course& course) {
    const base::Sources& sources = question->document.sources;
    const auto made = solve::balance({.in = question->document.inputs(serves),
                                      .document = std::string(sources.text(question->document.formula->source)),
                                      .targets = question->targets,
                                      .vary = question->vary,
                                      .exact = exact,
                                      .given_up = [&course] { return !course.goes_on(); }});
    if (!course.goes_on()) return std::string();
    if (!made) return error_line(made.error(), question->targets.empty() ? sources : question->words);
    return done_line(press::balance_json(*made, sources));
  });
}

Reply scatter(Call& call) {
  const auto body = body_of(call.request);
  if (!body) return refusal(body.error());
  text::Faults faults;
  const text::Fields fields(*body, "the request", {"text", "draws", "seed", "serves"}, faults);
  std::string text = text_of(fields, "text");
  const auto serves = serves_of(fields, faults);
  const auto number = [&](const char* key, std::int64_t otherwise, std::int64_t least) {
    const text::Node* node = fields.integer(key);
    if (node != nullptr && node->integer < least)
      text::fault(faults, node->span, "out_of_range", std::string("`") + key + "` is at least " + std::to_string(least));
    return static_cast<std::uint64_t>(node != nullptr ? node->integer : otherwise);
  };
  const std::uint64_t draws = number("draws", 4096, 1), seed = number("seed", 1, 0);
  if (draws > solve::most_draws) text::fault(faults, {}, "out_of_range", "`draws` is at most " + std::to_string(solve::most_draws));
  if (!faults.empty()) return refusal(unread(std::move(faults)));
  auto read = read_document(call.house, unnamed, std::move(text));
  if (!read) return refusal(read.error());
  if (!read->formula) return refusal(read->formula.error(), read->sources);
  return in_its_turn(call, [document = std::make_shared<Document>(std::move(*read)), serves, draws, seed](Course& course) {
    solve::ScatterAsked asked{document->inputs(serves), {}};
    asked.course = {draws, seed, std::max(1U, std::thread::hardware_concurrency()), course.token(), [&course](double share) { course.progress(share); }};
    auto made = solve::scatter(asked);
    if (!made) return error_line(made.error(), document->sources);
    if (!*made) return std::string();
    auto codes = solve::code_holds(asked);
    if (!codes) return error_line(codes.error(), document->sources);
    (*made)->holds.insert((*made)->holds.end(), codes->begin(), codes->end());
    return done_line(press::scatter_json(**made, document->sources));
  });
}

}  // namespace bloomset::http
