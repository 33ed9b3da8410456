// texture/gelatin.hpp - the laws of gelatin: firmness by dose and Bloom, classes, set and melt, growth with time, loss by heat.
//
//   From 2 % up:   F = B (C / 6.67 %)^2, the Bloom test's force at 10 C after 17 h (Ward & Courts 1977, p. 509; moduli give exponents 1.8 to 2.14).
//   Equal firmness: C sqrt(B) = const, so that C sqrt(B / 200) is the dose in 200 Bloom.
//   Below 2 %      no force is given: the texture class comes from dose bands by kind of base (practice, +-20 %), ratios from (C - C0)^2 B with C0
//                  0.5 % (0.3 to 1.0, our own span; form: Joly-Duhamel 2002, Ohkubo 1999), a range of low confidence.
//   Melting:       Tm = 31.5 C + 5 K log10(C / 6.67 %) + 3 K (B - 250)/200, at most 35 C, setting 3 to 8 K lower (memory, low confidence).
// Valid 2 to 10 %, pH 5 to 9, no alcohol. Fish gelatin sets and melts 8 to 10 K lower. Called by form, dose, set, foam, contact.
#pragma once

#include "texture/texture.hpp"

namespace bloomset::texture {

/// The Bloom test's 6.67 % by mass.
units::MassFraction bloom_test_dose();
/// C sqrt(B/200): the dose of 200 Bloom that is as firm.
units::MassFraction equivalent_200(units::MassFraction, double bloom);
/// The dose of that Bloom that is as firm as `of_200` of 200 Bloom.
units::MassFraction from_200(units::MassFraction of_200, double bloom);

/// Whether a force may be printed: from 2 % up.
bool force_is_known(units::MassFraction);
/// Force of the Bloom test [g]; `reference` and `exponent` for other authors' laws.
double gelatin_force_g(units::MassFraction, double bloom, units::MassFraction reference = bloom_test_dose(), double exponent = 2.0);
/// The Bloom that a test would report if `used` had been weighed for `nominal`, both in the same water.
double apparent_bloom(double bloom, units::Mass nominal, units::Mass used);

/// Firmness of b over a: (Cb - C0)^2 Bb / ((Ca - C0)^2 Ba). Not a number where either dose is not above C0.
double firmness_ratio(units::MassFraction a, double bloom_a, units::MassFraction b, double bloom_b, units::MassFraction c0 = {0.0});

/// Firmness of what is used over what was wanted. Both from 2 % up: the square law, with no span; else the threshold law with its span.
struct Firmness {
  double ratio = 1.0, least = 1.0, most = 1.0;  // least and most over C0; not a number at the limit of gelling
  bool by_threshold = false;
  bool at_the_limit = false;  // a dose at or below C0: no ratio
  bool mind() const { return at_the_limit || ratio > mind_above() || ratio < 1.0 / mind_above(); }
  static double mind_above();  // 1.25
};
Firmness firmness(units::MassFraction wanted, double bloom_wanted, units::MassFraction used, double bloom_used);

/// How firm a cold set or cold foam is at 4 to 8 C.
enum class GelClass : std::uint8_t { none, thickened, soft, medium, firm };
std::string_view name(GelClass);
struct ClassRead {
  GelClass is = GelClass::none;
  std::optional<GelClass> or_else;  // within a tenth of a band's edge
  Cited cited;
};
/// Of a dose in 200 Bloom. Spirit bases are read by the bands of juice: no others are known.
ClassRead gel_class(units::MassFraction of_200, BaseKind);
/// The least dose in 200 Bloom of a class other than none.
units::MassFraction class_from(GelClass, BaseKind);

/// A temperature with the span it may err by.
struct TemperatureSpan {
  units::Temperature nominal, least, most;
  Cited cited;
};
TemperatureSpan gelatin_melts(Agent, units::MassFraction, double bloom);
TemperatureSpan gelatin_sets(Agent, units::MassFraction, double bloom);

/// Firmness after a time at set temperature over that of 17 h. Below one hour straight from nothing: the law does not reach there.
struct Maturity {
  double share = 1.0, least = 1.0, most = 1.0;
  bool in_range = true;  // from one hour on
  Cited cited;
};
Maturity maturity(units::Duration);

/// Share of Bloom left after a hot hold; faster below pH 4. Memory, a factor of two. 1 below 40 C.
double bloom_kept(units::Temperature, units::Duration);

}  // namespace bloomset::texture
