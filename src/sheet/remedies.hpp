// sheet/remedies.hpp - changes of the text that would mend a finding. An edit is given only where it is sure to read back.
// Private to sheet.
#pragma once

#include "sheet/readings.hpp"

namespace bloomset::sheet {

/// `batches = N` on a part of the document's own text that has none yet; only words where the text is not at hand.
base::Remedy set_batches(const Kitchen&, std::size_t part, double batches);
/// Less ice in the glass: the serve's largest ice line, less what is over the brim. Nothing if too little would be left.
std::optional<base::Remedy> less_ice(const Kitchen&, double over_ml, double drink_density_g_ml);
/// The smallest glass of the kit that holds this much; nothing if none does.
std::optional<base::Remedy> larger_glass(const Kitchen&, double needed_ml);
/// A raw fruit of the part taken canned or pasteurised instead, where the larder knows it so; nothing if none stands in the text at hand.
std::optional<base::Remedy> heat_treated(const Kitchen&, std::size_t part);
/// The take brought to a temperature, in whole degrees upwards, before it goes in. Nothing unless it stands as a plain string in a list of the text at hand.
std::optional<base::Edit> bring_at(const Kitchen&, const flow::TakeInfo&, units::Temperature);

}  // namespace bloomset::sheet
