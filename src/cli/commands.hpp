// cli/commands.hpp - the commands, one file each: options in, text on the streams, exit code out.
#pragma once

#include "cli/desk.hpp"
#include "cli/options.hpp"

namespace bloomset::cli {

int run_sheet(const SheetOptions&, const Common&, const Streams&);
int run_check(const CheckOptions&, const Common&, const Streams&);
int run_mix(const MixOptions&, const Common&, const Streams&);
int run_chill(const ChillOptions&, const Common&, const Streams&);
int run_dose(const DoseOptions&, const Common&, const Streams&);
int run_gelatin(const GelatinOptions&, const Common&, const Streams&);
int run_charge(const ChargeOptions&, const Common&, const Streams&);
int run_scatter(const ScatterOptions&, const Common&, const Streams&);
int run_balance(const BalanceOptions&, const Common&, const Streams&);
int run_batch(const BatchOptions&, const Common&, const Streams&);
int run_ratio(const RatioOptions&, const Common&, const Streams&);
int run_open(const OpenOptions&, const Common&, const Streams&);
int run_refit(const RefitOptions&, const Common&, const Streams&);
int run_shelf(const ShelfOptions&, const Common&, const Streams&);
int run_substitute(const SubstituteOptions&, const Common&, const Streams&);

}  // namespace bloomset::cli
