// tests/gas/carbonation_test.cpp - fizz from a regulator, from a charger, and under the gas at 1 atm.
#include "gas/carbonation.hpp"

#include <gtest/gtest.h>

namespace bloomset::gas {
namespace {

using namespace units;

constexpr Gas co2 = Gas::carbon_dioxide;

TEST(Carbonation, VolumesUnderARegulator) {
  // Mean of Carroll 1991 and Weiss 1974 with fugacity, water vapour and Poynting factor; 4 %.
  EXPECT_NEAR(regulated(co2, bar_gauge(0.5), celsius(0.0)).volumes, 2.512, 0.04 * 2.512);
  EXPECT_NEAR(regulated(co2, bar_gauge(1.5), celsius(0.0)).volumes, 4.146, 0.04 * 4.146);
}

TEST(Carbonation, WaterUnderItsOwnGasAtOneAtmosphere) {
  // Handbook Bunsen coefficients of CO2 (from memory): 1.53 at 3 C, 1.19 at 10 C, 0.88 at 20 C, for 1 atm of the gas itself.
  for (const auto& [t_c, bunsen] : {std::pair{3.0, 1.53}, {10.0, 1.19}, {20.0, 0.88}}) {
    const double alone = 1.0 - water_vapour_pressure(celsius(t_c)).si / standard_atmosphere_pa;
    EXPECT_NEAR(at_one_atmosphere(co2, celsius(t_c)).volumes, bunsen * alone, 0.03 * bunsen) << t_c;
  }
}

TEST(Carbonation, BelowTheWaterVapourNothingDissolves) { EXPECT_DOUBLE_EQ(regulated(co2, pascals(100.0), celsius(20.0)).volumes, 0.0); }

TEST(Carbonation, OneChargerInALitreIsTheSameFizzWarmOrColdAtAnotherPressure) {
  // 1 L of water, 0.25 L head space, 8 g CO2. By hand from the Bunsen coefficients above: L(20 C) = 0.88 x 293/273 = 0.944, so the head space
  // holds 0.1818/(0.25 + 0.944) = 0.152 mol/L: 3.7 atm, 3.2 volumes; at 3 C L = 1.547: 2.3 atm, 3.5 volumes. To the digits given.
  Bottle b = closed(co2, litres(1.25), litres(1.0), celsius(20.0));
  charge(b, grams(8.0));
  settle(b);
  EXPECT_NEAR(reading(b).gas_pressure.si / standard_atmosphere_pa, 3.7, 0.05);
  EXPECT_NEAR(charged(b).volumes, 3.2, 0.05);
  bring_to(b, celsius(3.0));
  EXPECT_NEAR(reading(b).gas_pressure.si / standard_atmosphere_pa, 2.3, 0.06);
  EXPECT_NEAR(charged(b).volumes, 3.5, 0.05);
  EXPECT_NEAR(charged(b).mass.si, 3.5 / 22.26 * 44.01, 0.1);
}

}  // namespace
}  // namespace bloomset::gas
