#include "press/check.hpp"

#include "press/figure.hpp"
#include "press/finding_text.hpp"
#include "press/json.hpp"
#include "press/serve_text.hpp"

namespace bloomset::press {
namespace {

void append(std::string& list, const std::string& element) {
  if (!list.empty()) list += ", ";
  list += element;
}

std::string counted(std::size_t n, std::string_view one, std::string_view many) { return std::to_string(n) + " " + std::string(n == 1 ? one : many); }

}  // namespace

std::string CheckPrinter::document(std::string_view file, const sheet::Sheet& sheet, const base::Sources& sources) {
  for (const base::Finding& finding : sheet.findings)
    ++(finding.weight == base::Weight::stop ? stops_ : finding.weight == base::Weight::mind ? minds_ : notes_);
  for (const sheet::TargetLine& target : sheet.targets) {
    ++targets_;
    missed_ += target.missed() ? 1U : 0U;
  }
  std::string out = form_ == Form::json ? document_json(file, sheet, sources) : document_text(file, sheet);
  ++documents_;
  return out;
}

std::string CheckPrinter::document_json(std::string_view file, const sheet::Sheet& sheet, const base::Sources& sources) {
  std::string findings, targets;
  for (const base::Finding& finding : sheet.findings) append(findings, finding_json(finding, sources).print());
  for (const sheet::TargetLine& target : sheet.targets) append(targets, target_json(target).print());
  if (!findings.empty()) append(all_findings_, findings);
  if (!targets.empty()) append(all_targets_, targets);
  const std::string head = documents_ == 0 ? "{\"schema\": 1, \"documents\": [\n" : ",\n";
  return head + "{\"file\": " + text::Json(file).print() + ", \"findings\": [" + findings + "], \"targets\": [" + targets + "]}";
}

std::string CheckPrinter::document_text(std::string_view file, const sheet::Sheet& sheet) {
  Page page;
  page.heading(sheet.title, file);
  FindingDesk desk(sheet.findings);
  desk.told([](const base::Finding& f) { return f.code == base::Code::target_unmet; });  // the list of targets says it
  if (files_ == 1) {
    desk.say(page, 4, [](const base::Finding&) { return true; });
    print_targets(page, sheet.targets);
  } else {
    desk.say(page, 4, [](const base::Finding& f) { return f.weight != base::Weight::note; });
    for (const sheet::TargetLine& target : sheet.targets)
      if (target.missed()) print_target(page, target);
    if (desk.waiting() > 0) page.line("    " + counted(desk.waiting(), "note", "notes"));
  }
  page.gap();
  return page.take();
}

std::string CheckPrinter::end() {
  if (form_ == Form::json) {
    const std::string head = documents_ == 0 ? "{\"schema\": 1, \"documents\": [" : "\n";
    return head + "], \"findings\": [" + all_findings_ + "],\n\"targets\": [" + all_targets_ + "]}\n";
  }
  std::string out = counted(documents_, "formula", "formulas") + ": " + std::to_string(stops_) + " stop, " + std::to_string(minds_) + " mind, " +
                    std::to_string(notes_) + " note";
  if (targets_ > 0) out += "; " + std::to_string(targets_ - missed_) + " of " + counted(targets_, "target", "targets") + " met";
  return out + "\n";
}

}  // namespace bloomset::press
