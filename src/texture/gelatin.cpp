#include "texture/gelatin.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "texture/gelatin_table.hpp"

namespace bloomset::texture {
namespace {

constexpr double reference_bloom = 200.0;
constexpr double not_known = std::numeric_limits<double>::quiet_NaN();
constexpr Cited melting_source = {"memory: Eldridge and Ferry, J. Phys. Chem. 58 (1954) 992, and gelatin handbooks", Confidence::low};
constexpr Cited maturity_source = {"memory: te Nijenhuis (1981-1997), growth of modulus with the logarithm of time", Confidence::low};
constexpr Cited band_source = {"practice", Confidence::low};

const std::array<double, 4>& bands(BaseKind kind) {
  if (kind == BaseKind::cream) return table::band_cream;
  return kind == BaseKind::acid ? table::band_acid : table::band_juice;
}

units::Temperature melting(Agent agent, units::MassFraction dose, double bloom) {
  const double percent = std::max(units::in_percent(dose), 0.01);
  const double warm = table::melt_anchor + table::melt_slope * std::log10(percent / table::test_percent) +
                      table::melt_bloom_slope * (bloom - table::melt_anchor_bloom) / reference_bloom;
  const double melts = std::min(warm, table::melt_ceiling);
  return units::celsius(agent == Agent::fish_gelatin ? melts - table::fish_lower : melts);
}

}  // namespace

units::MassFraction bloom_test_dose() { return units::mass_percent(table::test_percent); }
units::MassFraction equivalent_200(units::MassFraction c, double bloom) { return c * std::sqrt(bloom / reference_bloom); }
units::MassFraction from_200(units::MassFraction c, double bloom) { return c * std::sqrt(reference_bloom / bloom); }

bool force_is_known(units::MassFraction c) { return units::in_percent(c) >= table::force_from - 1e-9; }

double gelatin_force_g(units::MassFraction c, double bloom, units::MassFraction reference, double exponent) {
  return bloom * std::pow(c / reference, exponent);
}

double apparent_bloom(double bloom, units::Mass nominal, units::Mass used) { return bloom * std::pow(used / nominal, table::force_exponent); }

double firmness_ratio(units::MassFraction a, double bloom_a, units::MassFraction b, double bloom_b, units::MassFraction c0) {
  if (!(a > c0 && b > c0)) return not_known;
  return std::pow((b - c0) / (a - c0), table::force_exponent) * bloom_b / bloom_a;
}

double Firmness::mind_above() { return table::mind_firmness; }

Firmness firmness(units::MassFraction wanted, double bloom_wanted, units::MassFraction used, double bloom_used) {
  Firmness f;
  if (force_is_known(wanted) && force_is_known(used)) {
    f.ratio = f.least = f.most = firmness_ratio(wanted, bloom_wanted, used, bloom_used);
    return f;
  }
  f.by_threshold = true;
  const auto at = [&](double c0) { return firmness_ratio(wanted, bloom_wanted, used, bloom_used, units::mass_percent(c0)); };
  f.ratio = at(table::threshold_nominal);
  f.at_the_limit = !std::isfinite(f.ratio);
  const double one = at(table::threshold_least), other = at(table::threshold_most);
  f.least = std::min(one, other);
  f.most = std::max(one, other);
  // Above the widest threshold no ratio exists: the span is open there.
  if (!std::isfinite(one) || !std::isfinite(other)) f.least = f.most = not_known;
  return f;
}

std::string_view name(GelClass c) {
  constexpr std::array<std::string_view, 5> names = {"none", "thickened", "soft", "medium", "firm"};
  return names[static_cast<std::size_t>(c)];
}

ClassRead gel_class(units::MassFraction of_200, BaseKind kind) {
  const double percent = units::in_percent(of_200);
  ClassRead read{GelClass::none, std::nullopt, band_source};
  const auto& edges = bands(kind);
  for (std::size_t i = 0; i < edges.size(); ++i)
    if (percent >= edges[i] - 1e-9) read.is = static_cast<GelClass>(i + 1);
  for (std::size_t i = 0; i < edges.size(); ++i) {
    if (std::abs(percent - edges[i]) > table::band_edge * edges[i] + 1e-9) continue;
    const auto below = static_cast<GelClass>(i), above = static_cast<GelClass>(i + 1);
    read.or_else = read.is == above ? below : above;
  }
  return read;
}

units::MassFraction class_from(GelClass c, BaseKind kind) {
  const std::size_t i = static_cast<std::size_t>(c);
  return units::mass_percent(i == 0 ? 0.0 : bands(kind)[i - 1]);
}

TemperatureSpan gelatin_melts(Agent agent, units::MassFraction dose, double bloom) {
  const units::Temperature t = melting(agent, dose, bloom);
  const auto err = units::kelvins_difference(table::melt_uncertainty);
  return {t, t - err, t + err, melting_source};
}

TemperatureSpan gelatin_sets(Agent agent, units::MassFraction dose, double bloom) {
  const units::Temperature melts = melting(agent, dose, bloom);
  const auto below = [&](double k) { return melts - units::kelvins_difference(k); };
  return {below(table::hysteresis_nominal), below(table::hysteresis_most + table::melt_uncertainty), below(table::hysteresis_least - table::melt_uncertainty),
          melting_source};
}

Maturity maturity(units::Duration time) {
  const double hours = units::in_hours(time), reached = std::max(hours, 1.0), below_range = std::clamp(hours, 0.0, 1.0);
  const auto grown = [&](double a) { return below_range * (1.0 + a * std::log10(reached / table::test_hours)); };
  Maturity m{grown(table::maturity_nominal), grown(table::maturity_least), grown(table::maturity_most), hours >= 1.0, maturity_source};
  if (m.least > m.most) std::swap(m.least, m.most);
  return m;
}

double bloom_kept(units::Temperature t, units::Duration time) {
  constexpr double loss_known_at_c = 60.0, no_loss_below_c = 40.0;
  const double celsius = units::in_celsius(t);
  if (celsius < no_loss_below_c) return 1.0;
  const double per_hour = table::bloom_loss * std::pow(table::bloom_loss_factor, celsius - loss_known_at_c);
  return std::exp(-per_hour * units::in_hours(time));
}

}  // namespace bloomset::texture
