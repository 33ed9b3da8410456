// cli/quantities.hpp - quantities of the command line: `20C`, `-18 C`, `200g`, `12s`, `70J/K`, with or without a blank.
//
// Each option's text becomes a source of its own, so that a fault is shown under its letters like one in a document.
#pragma once

#include <optional>
#include <string>

#include "base/diagnostic.hpp"
#include "sheet/gelatin_swap.hpp"
#include "text/amount.hpp"
#include "units/quantity.hpp"

namespace bloomset::cli {

/// The place of a whole option's text.
base::Span whole(std::uint32_t source, const std::string& text);

/// Reads options one by one and gathers every fault. What could not be read answers zero; look at `faults` before use.
class QuantityReader {
 public:
  explicit QuantityReader(base::Sources& sources) : sources_(sources) {}
  units::Temperature temperature(const char* option, const std::string& written);
  units::Mass mass(const char* option, const std::string& written);
  units::Volume volume(const char* option, const std::string& written);
  /// `2 bar` as a gauge shows it, or `3 bar abs`.
  units::Pressure pressure(const char* option, const std::string& written);
  /// `4 g`, or leaves: `3 leaves`, `3 sheets`, `3 pieces`.
  sheet::GelatinAmount gelatin(const char* option, const std::string& written);
  units::Duration duration(const char* option, const std::string& written);
  units::HeatCapacity heat_capacity(const char* option, const std::string& written);
  void fault(const char* option, const std::string& written, std::string code, std::string message, std::string hint);
  text::Faults faults;

 private:
  std::optional<text::Amount> amount(const char* option, const std::string& written, text::AmountKind, const char* code, const char* message, const char* hint);
  base::Sources& sources_;
};

}  // namespace bloomset::cli
