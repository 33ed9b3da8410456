// sheet/probe.hpp - wishes read off a run, without making a sheet: for those who run a flowsheet many times.
//
// A property of matter is read straight from its port, headroom from the drink's volumes. What needs more (cost, a bottle's pressure, hours) is answered
// as the sheet answers it, at the price of one. `read_sheet` is the whole sheet, for those who ask for its findings. Callers: solve, make_sheet.
#pragma once

#include <span>
#include <vector>

#include "flow/run.hpp"
#include "sheet/sheet.hpp"

namespace bloomset::sheet {

class Probe {
 public:
  /// The flowsheet is the inputs' own, and both outlive the probe.
  Probe(const Inputs&, const flow::Flowsheet&, std::vector<formula::Target>);
  /// One value a target, in its wire unit; NaN: cannot be given. `out` has as many as there are targets.
  void read(const flow::Batch<1>&, std::span<double> out) const;

 private:
  struct Port {
    flow::Port liquid = flow::no_port, ice = flow::no_port;
    matter::PropertySet asked;
    std::vector<std::pair<std::size_t, matter::Property>> of;  // target, property
  };
  const Inputs& in_;
  const flow::Flowsheet& flow_;
  std::vector<formula::Target> targets_;
  std::vector<Port> ports_;
  std::vector<std::size_t> headrooms_, by_sheet_;
};

/// The sheet of a run at any knobs, to the last moment; its digest stays empty.
Sheet read_sheet(const Inputs&, const flow::Flowsheet&, const flow::Batch<1>&);
/// Targets that speak of what the document does not have.
std::vector<base::Diagnostic> target_faults(const formula::Formula& formula);
/// Whether a value is what the target wishes; one that cannot be given is not.
bool met(const formula::Target&, double value);

}  // namespace bloomset::sheet
