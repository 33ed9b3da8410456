#include "base/finding.hpp"

#include <algorithm>
#include <utility>

namespace bloomset::base {

std::string_view name(Weight weight) {
  switch (weight) {
    case Weight::stop:
      return "stop";
    case Weight::mind:
      return "mind";
    case Weight::note:
      return "note";
  }
  return "note";
}

std::string_view name(Code code) {
  static constexpr std::array<std::string_view, code_count> names = {"range_left",
                                                                     "assumption",
                                                                     "value_missing",
                                                                     "limit_unknown",
                                                                     "over_fill_line",
                                                                     "over_charges",
                                                                     "over_pressure",
                                                                     "pressure_if_warm",
                                                                     "gas_caution",
                                                                     "not_strained",
                                                                     "live_enzyme",
                                                                     "enzyme_contact",
                                                                     "will_not_set",
                                                                     "sets_soft",
                                                                     "strings_on_landing",
                                                                     "melts_on_hot",
                                                                     "too_acid",
                                                                     "too_strong",
                                                                     "too_hard_water",
                                                                     "curdles",
                                                                     "sinks_or_floats",
                                                                     "dose_below_scale",
                                                                     "over_legal_limit",
                                                                     "ice_gone",
                                                                     "glass_over",
                                                                     "left_over",
                                                                     "short",
                                                                     "target_unmet",
                                                                     "pieces_rounded",
                                                                     "flame_near_spirit",
                                                                     "torch_near_bottle",
                                                                     "unrated_vessel",
                                                                     "hot_sugar",
                                                                     "raw_egg",
                                                                     "choking",
                                                                     "keeps_passed",
                                                                     "cooling_too_slow",
                                                                     "time_temperature_control",
                                                                     "low_acid_stored",
                                                                     "allergen",
                                                                     "allergen_unknown",
                                                                     "alcohol",
                                                                     "guest_notice",
                                                                     "defer"};
  return names[static_cast<std::size_t>(code)];
}

std::string edited(std::string text, std::vector<Edit> edits) {
  // From the end on, so that a change leaves the places before it where they are.
  std::sort(edits.begin(), edits.end(),
            [](const Edit& a, const Edit& b) { return std::pair(a.place.line, a.place.column) > std::pair(b.place.line, b.place.column); });
  for (const Edit& edit : edits) {
    if (!edit.place.known()) continue;
    std::size_t line = 0;
    for (std::uint32_t n = 1; n < edit.place.line && line != std::string::npos; ++n)
      if (line = text.find('\n', line); line != std::string::npos) ++line;
    if (line == std::string::npos || line + edit.place.column - 1 > text.size()) continue;
    text.replace(line + edit.place.column - 1, edit.place.length, edit.text);
  }
  return text;
}

}  // namespace bloomset::base
