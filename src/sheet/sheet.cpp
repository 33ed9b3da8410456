// sheet/sheet.cpp - compile, run, read: the whole sheet in the order in which it is made.
#include "sheet/sheet.hpp"

#include <algorithm>

#include "flow/compile.hpp"
#include "flow/run.hpp"
#include "sheet/digest.hpp"
#include "sheet/probe.hpp"
#include "sheet/readings.hpp"

namespace bloomset::sheet {

bool Sheet::stop() const {
  return std::any_of(findings.begin(), findings.end(), [](const base::Finding& f) { return f.weight == base::Weight::stop; }) ||
         std::any_of(targets.begin(), targets.end(), [](const TargetLine& t) { return t.missed(); });
}

Sheet read_sheet(const Inputs& in, const flow::Flowsheet& flow, const flow::Batch<1>& batch) {
  const Ledger book = ledger_of(flow, batch);
  const Kitchen kitchen{in, flow, batch, book};

  Sheet sheet;
  sheet.title = in.formula.title;
  sheet.serves = flow.serves;
  sheet.parts = part_sheets(kitchen);
  if (flow.has_serve) sheet.serve = serve_sheet(kitchen);
  sheet.streams = ribbons(kitchen);
  sheet.order = order_list(kitchen);
  if (flow.has_serve) sheet.service = service_of(kitchen);
  sheet.balance = book.balance;
  for (const flow::Mark& mark : flow.marks) sheet.findings.push_back(finding(mark, flow));
  sheet.targets = judge_targets(kitchen, sheet, sheet.findings);
  std::vector<base::Finding> ruled;
  apply_rules(kitchen, sheet, ruled);
  bottle_rules(kitchen, sheet, ruled);
  setting_rules(kitchen, ruled);
  parting_rules(kitchen, ruled);
  meeting_rules(kitchen, ruled);
  cooling_rules(kitchen, sheet, ruled);
  out_of_cold_rules(kitchen, sheet, ruled);
  cautions(kitchen, sheet, ruled);
  sheet.findings.insert(sheet.findings.end(), ruled.begin(), ruled.end());
  tidy(sheet.findings);
  return sheet;
}

base::Result<Sheet> make_sheet(const Inputs& in) {
  auto flow = flow::compile(in.formula, in.larder, in.kit, in.serves);
  std::vector<base::Diagnostic> faults = target_faults(in.formula);
  if (!flow) {
    base::Error error = std::move(flow.error());
    error.diagnostics.insert(error.diagnostics.end(), faults.begin(), faults.end());
    return tl::unexpected<base::Error>(std::move(error));
  }
  if (!faults.empty()) return base::fail(base::ErrorKind::bad_input, "a target speaks of what the document does not have", std::move(faults));

  flow::Batch<1> batch(*flow);
  flow::run<1>(*flow, flow->nominal, batch);
  Sheet sheet = read_sheet(in, *flow, batch);
  sheet.digest = digest({in.formula_text, in.larder.fingerprint(), in.kit.fingerprint()});
  return sheet;
}

}  // namespace bloomset::sheet
