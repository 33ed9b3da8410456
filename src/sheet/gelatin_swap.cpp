#include "sheet/gelatin_swap.hpp"

#include <cmath>
#include <limits>

#include "sheet/cited.hpp"
#include "sheet/readings.hpp"
#include "texture/catalogue.hpp"

namespace bloomset::sheet {
namespace {

using base::Diagnostic;
using base::Severity;

// A count that differs from whole and half leaves by less is that count: no cook sees it.
constexpr double same_count_share = 0.02;

Diagnostic fault(base::Span span, std::string code, std::string message, std::string hint) {
  return {Severity::error, std::move(code), std::move(message), span, std::nullopt, std::move(hint)};
}

double in_leaves(const texture::Form& form, units::Mass mass) { return mass / *form.leaf; }

// "bronze leaf": the trade's word alone, in a list of gelatins.
std::string_view short_name(std::string_view grade) {
  constexpr std::string_view all_are = "gelatin, ";
  if (grade.starts_with(all_are)) grade.remove_prefix(all_are.size());
  return grade;
}

// "bronze leaf 7.81 g (6.16 g by the linear rule)", for every grade that could be meant on the side that is open.
std::string by_grade(const GelatinAmount& amount, const AgentForm& from, const AgentForm& to) {
  std::vector<std::string> words;
  const AgentForm& open = from.grade_known ? to : from;
  for (const texture::GelatinForm& grade : texture::gelatin_forms()) {
    if (grade.agent != texture::Agent::gelatin || (open.form.leaf && !grade.leaf)) continue;
    const texture::Form form{grade.agent, grade.bloom, grade.leaf};
    const texture::Form one = from.grade_known ? from.form : form, other = to.grade_known ? to.form : form;
    if (amount.pieces && !one.leaf) continue;
    const texture::Conversion made = amount.pieces ? texture::convert_pieces(*amount.pieces, one, other) : texture::convert(*amount.mass, one, other);
    const units::Mass mass = *made.of(texture::Rule::root_bloom).mass, linear = *made.of(texture::Rule::linear_bloom).mass;
    std::string word = std::string(short_name(grade.name)) + " " + shown(units::in_grams(mass)) + " g";
    if (other.leaf) word += " = " + shown(in_leaves(other, mass)) + " leaves";
    words.push_back(word + " (" + shown(units::in_grams(linear)) + " g by the linear rule)");
  }
  return listed(words);
}

void check_grade(const GelatinAmount& amount, const AgentForm& from, const AgentForm& to, const AgentForm& one, base::Span span,
                 std::vector<Diagnostic>& faults) {
  if (one.grade_known) return;
  const std::string what =
      one.form.leaf ? "which leaf this is is not said, and leaves differ in mass and Bloom" : "which gelatin this is is not said, and gelatins differ in Bloom";
  const std::string how = one.form.leaf ? "`gelatin leaf (2 g a piece, 200 bloom)`" : "`gelatin (225 bloom)`";
  const bool both_open = !from.grade_known && !to.grade_known;
  const std::string table = both_open ? "" : "by grade: " + by_grade(amount, from, to) + "; ";
  faults.push_back(fault(span, "grade_unknown", what, table + "name the grade, or read mass and Bloom off the packet: " + how));
}

void check_gelatin(const AgentForm& one, base::Span span, std::vector<Diagnostic>& faults) {
  if (texture::is_gelatin(one.form.agent)) return;
  faults.push_back(
      fault(span, "no_gelatin", one.label + " is no gelatin", "`bloomset substitute FORMULA --agent gelatin` finds another agent for the same effect"));
}

void add_findings(GelatinSheet& sheet) {
  for (const AgentForm* one : {&sheet.from, &sheet.to})
    for (const std::string& words : one->assumptions) sheet.findings.push_back(say(base::Code::assumption, {}, words));
  for (const texture::Note& note : sheet.conversion.notes) {
    if (note.cited.practice()) continue;  // that powder has no leaves stands in the table of rules
    sheet.findings.push_back(because("no standard says how gelatins are exchanged", say(base::Code::assumption, {}, note.says)));
    sheet.findings.back().source = source_words(note.cited.source);
    sheet.findings.back().remedies.clear();
    sheet.findings.back().weight = base::Weight::mind;
  }
  const std::optional<double>& pieces = sheet.chosen().pieces;
  if (!pieces) return;
  const double whole = std::max(std::round(2.0 * *pieces), 1.0) / 2.0, off = whole / *pieces - 1.0;
  if (std::abs(off) < same_count_share) return;
  sheet.findings.push_back(say(base::Code::pieces_rounded, {},
                               shown(*pieces) + " leaves are neither whole nor half ones: " + shown(whole) + " weigh " + shown(std::abs(100.0 * off)) + " % " +
                                   (off > 0.0 ? "more" : "less") + ", and firmness goes with the square of that or faster"));
}

}  // namespace

base::Result<GelatinSheet> swap_gelatin(const GelatinAmount& amount, const AgentForm& from, base::Span from_span, const AgentForm& to, base::Span to_span) {
  std::vector<Diagnostic> faults;
  check_gelatin(from, from_span, faults);
  check_gelatin(to, to_span, faults);
  const double size = amount.mass ? amount.mass->si : amount.pieces.value_or(0.0);
  if (!(size > 0.0)) faults.push_back(fault(amount.span, "nothing_there", "there is no gelatin to exchange", "give an amount above zero"));
  if (faults.empty() && amount.pieces && !from.form.leaf)
    faults.push_back(fault(amount.span, "no_leaves", from.label + " is not sold in leaves", "give its grams"));
  if (faults.empty()) {
    check_grade(amount, from, to, from, from_span, faults);
    check_grade(amount, from, to, to, to_span, faults);
  }
  if (!faults.empty()) return base::fail(base::ErrorKind::bad_input, "this gelatin cannot be exchanged", std::move(faults));

  GelatinSheet sheet;
  sheet.from = from;
  sheet.to = to;
  sheet.counted = amount.pieces.has_value();
  sheet.mass = amount.mass ? *amount.mass : *amount.pieces * *from.form.leaf;
  if (from.form.leaf) sheet.pieces = in_leaves(from.form, sheet.mass);
  sheet.conversion = texture::convert(sheet.mass, from.form, to.form, sheet.counted);
  const units::MassFraction here = texture::bloom_test_dose();  // any: the square law's ratio does not depend on it
  for (std::size_t i = 0; i < sheet.firmness.size(); ++i) {
    const auto& mass = sheet.conversion.rules[i].mass;
    sheet.firmness[i] =
        mass ? texture::firmness_ratio(here, from.form.bloom, here * (*mass / sheet.mass), to.form.bloom) : std::numeric_limits<double>::quiet_NaN();
  }
  sheet.blooming = texture::blooming_water(*sheet.chosen().mass, to.form.leaf.has_value());
  add_findings(sheet);
  tidy(sheet.findings);
  return sheet;
}

}  // namespace bloomset::sheet
