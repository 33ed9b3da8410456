// formula/writer.cpp - prints a document so that reading it back gives the same Formula.
//
// Order and spacing are ours: head, parts with a table a step, the serve with a line a pour. Numbers are printed with
// just the digits that read back as the same double. Comments of an edited text are not kept: edits of a text go
// through spans, this is for documents that a program makes (a solver's answer, a refit).
#include <array>

#include "formula/acts.hpp"
#include "formula/reading.hpp"
#include "text/rewrite.hpp"
#include "text/units.hpp"

namespace bloomset::formula {
namespace {

std::string take_value(const Take& take, text::Measures measures) {
  const std::string text = text::toml_string(print(take, measures));
  if (!take.at_c && take.mark.empty()) return text;
  std::string table = "{ take = " + text;
  if (take.at_c) table.append(", at = ").append(text::toml_string(text::print_temperature(*take.at_c)));
  if (!take.mark.empty()) table.append(", mark = ").append(text::toml_string(take.mark));
  return table.append(" }");
}

std::string until_text(const Until& until) {
  switch (until.what) {
    case Until::What::brix:
      return text::print_exactly(until.value) + " brix";
    case Until::What::ph:
      return "pH " + text::print_exactly(until.value);
    case Until::What::mass:
      return text::print_exactly(until.value, 1, 1000) + " g";
    case Until::What::share_of_start:
      return text::print_exactly(until.value, 1, 100) + " %";
  }
  return {};
}

std::string pressure_text(double pascals) {
  // As a gauge shows it where that reads back as the same double, else absolute.
  const std::string gauge = text::print_number((pascals - units::standard_atmosphere_pa) / 1e5, 6);
  double value = 0.0;
  text::Faults faults;
  text::Cursor cursor{gauge, {}};
  if (const auto n = text::read_numbers(cursor, text::Sign::may_be_negative, faults); n) value = n->low.value;
  if (value >= 0.0 && units::bar_gauge(value).si == pascals) return gauge + " bar";
  return text::print_exactly(pascals, 100000, 1) + " bar abs";
}

template <class Item, class Print>
std::string list(const std::vector<Item>& items, Print print) {
  std::string out = "[";
  for (const Item& item : items) out.append(&item == items.data() ? "" : ", ").append(print(item));
  return out.append("]");
}

// The step's keys and values, in the order of `Key`.
text::Members lines_of(const Step& step, bool is_pour, text::Measures measures) {
  text::Members lines;
  const auto put = [&](Key key, std::string value) { lines.emplace_back(name(key), std::move(value)); };
  const auto put_word = [&](Key key, const std::optional<Word>& word) {
    if (word) put(key, text::toml_string(word->text));
  };
  const auto put_range = [&](Key key, const std::optional<text::Range>& range, std::string (*print)(const text::Range&)) {
    if (range) put(key, text::toml_string(print(*range)));
  };
  if (!is_pour || step.act != Act::pour) lines.emplace_back("do", text::toml_string(name(step.act)));
  if (!step.takes.empty()) put(Key::take, list(step.takes, [&](const Take& take) { return take_value(take, measures); }));
  if (step.ice) put(Key::ice, text::toml_string(print(*step.ice, measures)));
  put_range(Key::ice_at, step.ice_at_c, text::print_temperature);
  if (step.bath) {
    std::string bath = "{ in = " + text::toml_string(print(step.bath->in, measures));
    if (step.bath->takes_up) bath.append(", takes_up = ").append(text::toml_string(text::print_share(*step.bath->takes_up)));
    put(Key::bath, bath.append(" }"));
  }
  put_word(Key::with, step.with);
  put_word(Key::by, step.by);
  if (step.size_m) put(Key::size, text::toml_string(text::print_exactly(*step.size_m, 1, 1000) + " mm"));
  put_word(Key::in, step.in);
  put_word(Key::vessel, step.vessel);
  if (step.charges) put(Key::charges, std::to_string(*step.charges));
  put_word(Key::gas, step.gas);
  if (step.pressure_pa) put(Key::pressure, text::toml_string(pressure_text(*step.pressure_pa)));
  if (step.purged) put(Key::purged, "true");
  put_range(Key::to, step.to_c, text::print_temperature);
  put_range(Key::at, step.at_c, text::print_temperature);
  if (step.until) put(Key::until, text::toml_string(until_text(*step.until)));
  put_range(Key::time, step.time_s, text::print_duration);
  put_range(Key::split, step.split, text::print_share);
  if (!step.leave.empty()) put(Key::leave, list(step.leave, [](const Word& word) { return text::toml_string(word.text); }));
  if (!step.out.empty()) {
    std::string out = "{";
    for (const NamedShare& share : step.out)
      out.append(&share == step.out.data() ? " " : ", ")
          .append(text::toml_string(share.name))
          .append(" = ")
          .append(text::toml_string(share.share ? text::print_share(*share.share) : "rest"));
    put(Key::out, out.append(" }"));
  }
  put_range(Key::yield, step.yield_, text::print_share);
  put_range(Key::loss, step.loss, text::print_share);
  put_range(Key::keeps, step.keeps_s, text::print_duration);
  put_word(Key::hard, step.hard);
  if (step.maybe) put(Key::maybe, "true");
  return lines;
}

std::string target_text(const Target& target) {
  if (!target.text.empty()) return target.text;
  std::string text = target.of_serve ? std::string("serve.") : text::say({"'", target.part, "'."});
  text.append(target.property);
  if (target.at_minute) text.append(" at ").append(text::print_exactly(*target.at_minute)).append(" min");
  const bool is_fill = target.property == "fill";
  const auto number = [&](double value) { return text::print_exactly(value, 1, is_fill ? 100 : 1); };
  switch (target.wish) {
    case Wish::at_least:
      text.append(" >= ").append(number(target.low));
      break;
    case Wish::at_most:
      text.append(" <= ").append(number(target.high));
      break;
    case Wish::equal:
      text.append(" = ").append(number(target.low));
      break;
    case Wish::within:
      text.append(" ").append(number(target.low)).append(" to ").append(number(target.high));
      break;
  }
  const std::string_view unit = target_unit(target.property);
  return unit.empty() ? text : text.append(" ").append(unit);
}

void write_part(const Part& part, text::Measures measures, std::string& out) {
  out.append("\n[[part]]\nname = ")
      .append(text::toml_string(part.name))
      .append("\nmade = ")
      .append(part.made == Made::ahead ? "\"ahead\"\n" : "\"to order\"\n");
  if (part.makes) out.append("makes = ").append(text::toml_string(text::print(*part.makes, measures))).append("\n");
  if (part.batches != 1.0) out.append("batches = ").append(text::print_exactly(part.batches)).append("\n");
  for (const Step& step : part.steps) {
    out.append("  [[part.step]]\n");
    for (const auto& line : lines_of(step, false, measures)) out.append("  ").append(line.first).append(" = ").append(line.second).append("\n");
  }
}

}  // namespace

std::string label(const Take& take) {
  std::string text = take.thing;
  if (!take.output.empty()) text.append("/").append(take.output);
  for (const Qualifier& q : take.qualifiers) text.append(&q == take.qualifiers.data() ? " (" : ", ").append(print(q));
  return take.qualifiers.empty() ? text : text.append(")");
}

std::string print(const Take& take, text::Measures measures) {
  std::string text = text::print(take.amount, measures) + " ";
  if (!take.of_mark.empty()) text.append("'").append(take.of_mark).append("' ");
  if (take.kind == ThingKind::bought) return text + label(take);
  text.append("'").append(label(take)).append("'");
  if (take.charged_as != ChargedAs::unsaid) text.append(take.charged_as == ChargedAs::foam ? " as foam" : " as base");
  return text;
}

std::string write(const Formula& formula) {
  std::string out = "bloomset = 1\ntitle = " + text::toml_string(formula.title) + "\n";
  if (formula.measures != text::Measures::metric) out.append("measures = ").append(text::toml_string(text::name(formula.measures))).append("\n");
  out.append("serves = ").append(std::to_string(formula.serves)).append("\n");
  if (!formula.borrow.empty()) {
    text::Members lines;
    for (const Borrow& borrow : formula.borrow) lines.emplace_back(borrow.part, text::toml_string(borrow.file));
    out.append("borrow = ").append(text::inline_table(lines)).append("\n");
  }
  if (!formula.targets.empty())
    out.append("targets = ").append(list(formula.targets, [](const Target& target) { return text::toml_string(target_text(target)); })).append("\n");
  for (const Part& part : formula.parts)
    if (part.source == formula.source) write_part(part, formula.measures, out);
  if (formula.serve) {
    out.append("\n[serve]\nvessel = ").append(text::toml_string(formula.serve->vessel.text)).append("\npour = [\n");
    for (const Step& pour : formula.serve->pours) out.append("  ").append(text::inline_table(lines_of(pour, true, formula.measures))).append(",\n");
    out.append("]\n");
  }
  return out;
}

}  // namespace bloomset::formula
