// The built-in kit is what the contract promises, and a plain cylinder holds what it says.
#include "kit/kit.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "kit/outline.hpp"

namespace bloomset::kit {
namespace {

Kit built_in() {
  auto kit = Kit::built_in();
  EXPECT_TRUE(kit.has_value()) << (kit ? "" : kit.error().message);
  return kit ? *kit : Kit{};
}

struct Siphon {
  const char* name;
  double gross_ml, fill_ml;
  int charges;
};

// The figures of the built-in kit are a promise of the program to its users; they are invented and the rows say so.
TEST(BuiltInKit, HoldsTheSiphonsOfTheContract) {
  const Kit kit = built_in();
  for (const Siphon& row : {Siphon{"siphon, half litre", 750, 500, 2}, Siphon{"siphon, one litre", 1400, 1000, 4}, Siphon{"siphon, cold only", 750, 500, 1}}) {
    const Vessel* v = kit.vessel(row.name);
    ASSERT_NE(v, nullptr) << row.name;
    EXPECT_EQ(v->kind, VesselKind::siphon);
    EXPECT_NEAR(units::in_millilitres(v->brim), row.gross_ml, 1e-9);
    ASSERT_TRUE(v->fill_line && v->most_charges);
    EXPECT_NEAR(units::in_millilitres(*v->fill_line), row.fill_ml, 1e-9);
    EXPECT_EQ(*v->most_charges, row.charges);
    EXPECT_TRUE(v->pressure_rated);
  }
  EXPECT_FALSE(kit.vessel("siphon, cold only")->hot_rated);
  EXPECT_TRUE(kit.vessel("siphon, half litre")->hot_rated);
}

TEST(BuiltInKit, HoldsTheGlassesWithOutlinesThatFillToTheBrim) {
  const Kit kit = built_in();
  for (const auto& [name, ml] :
       {std::pair{"cup, 240 mL", 240.0}, {"tall glass, 400 mL", 400.0}, {"low glass, 300 mL", 300.0}, {"mug, 260 mL", 260.0}, {"flute, 180 mL", 180.0}}) {
    const Vessel* v = kit.vessel(name);
    ASSERT_NE(v, nullptr) << name;
    EXPECT_EQ(v->kind, VesselKind::glass);
    EXPECT_NEAR(units::in_millilitres(v->brim), ml, 1e-9);
    EXPECT_NEAR(units::in_millilitres(volume_inside(v->inside)) / ml, 1.0, 0.01) << name;
  }
}

// Invented masses times the specific heat of glass, 0.84 J/(g K), or stoneware, 0.85 (memory: handbook tables), to the joule.
TEST(BuiltInKit, EveryGlassHasAHeatCapacity) {
  const Kit kit = built_in();
  for (const auto& [name, j_k] : {std::pair{"cup, 240 mL", 150 * 0.84},
                                  {"tall glass, 400 mL", 350 * 0.84},
                                  {"low glass, 300 mL", 300 * 0.84},
                                  {"mug, 260 mL", 300 * 0.85},
                                  {"flute, 180 mL", 130 * 0.84}})
    EXPECT_NEAR(kit.vessel(name)->heat.si, j_k, 0.5) << name;
}

TEST(BuiltInKit, HoldsShakerMixingGlassAndPlaces) {
  const Kit kit = built_in();
  EXPECT_EQ(kit.first_vessel(VesselKind::shaker)->heat.si, 70.0);
  EXPECT_EQ(kit.first_vessel(VesselKind::shaker)->holds_serves, 2.0);
  EXPECT_EQ(kit.vessel("mixing glass")->heat.si, 45.0);
  for (const auto& [name, c] : {std::pair{"still fridge", 5.0}, {"fan fridge", 3.0}, {"freezer", -18.0}, {"ice bath", 0.0}}) {
    ASSERT_NE(kit.place(name), nullptr) << name;
    EXPECT_NEAR(units::in_celsius(kit.place(name)->temperature), c, 1e-9);
  }
  EXPECT_EQ(kit.first_place(PlaceKind::still_fridge)->name, "still fridge");
  EXPECT_NE(kit.first_vessel(VesselKind::blender), nullptr);
  EXPECT_NE(kit.first_vessel(VesselKind::pan), nullptr);
}

TEST(BuiltInKit, SaysOfEveryFigureThatItIsInvented) {
  const Kit kit = built_in();
  for (const std::string& name : kit.vessel_names()) EXPECT_EQ(kit.vessel(name)->source, "invented") << name;
  for (const std::string& name : kit.place_names()) EXPECT_EQ(kit.place(name)->source, "invented") << name;
}

TEST(BuiltInKit, IsFoundWhateverTheCase) {
  const Kit kit = built_in();
  EXPECT_EQ(kit.vessel("Tall  GLASS, 400 ml"), kit.vessel("tall glass, 400 mL"));
  EXPECT_EQ(kit.vessel("tall glass"), nullptr);
}

// Second route: a cylinder and a cone by their school formulas.
TEST(Outline, IsExactForCylinderAndCone) {
  constexpr double pi = 3.14159265358979323846;
  EXPECT_NEAR(volume_inside({{{0.0}, {0.03}}, {{0.1}, {0.03}}}).si, pi * 0.03 * 0.03 * 0.1, 1e-18);
  EXPECT_NEAR(volume_inside({{{0.0}, {0.0}}, {{0.09}, {0.05}}}).si, pi * 0.05 * 0.05 * 0.09 / 3.0, 1e-18);
}

TEST(PlainCylinder, HoldsWhatItsNameSays) {
  EXPECT_TRUE(rc::check("volume", [] {
    const int ml = *rc::gen::inRange(1, 5000);
    const auto v = Kit::plain_cylinder("jam jar, " + std::to_string(ml) + " mL");
    RC_ASSERT(v.has_value());
    RC_ASSERT(std::abs(units::in_millilitres(v->brim) - ml) < 1e-9 * ml);
    RC_ASSERT(std::abs(units::in_millilitres(volume_inside(v->inside)) - ml) < 1e-9 * ml);
    RC_ASSERT(v->heat.si == 0.0);
  }));
}

TEST(PlainCylinder, ReadsNothingElse) {
  for (const char* text : {"jar", "jar, ", ", 200 mL", "jar, 200 g", "jar, 0 mL", "jar, 200", "jar, 200 mL full", "jar, 100-200 mL", "jar, -3 mL", ""})
    EXPECT_FALSE(Kit::plain_cylinder(text).has_value()) << text;
  EXPECT_TRUE(Kit::plain_cylinder("old jar, with lid, 0.3 L").has_value());
}

TEST(Kit, LetsItsRowsBeListedWithWhereTheyCameFrom) {
  Kit kit = built_in();
  base::Sources sources;
  ASSERT_TRUE(kit.add("mine",
                      "[[vessel]]\nname = \"beaker\"\nkind = \"mixing_glass\"\nbrim_ml = 700\nsource = \"own weighing\"\n"
                      "[[place]]\nname = \"still fridge\"\nkind = \"still_fridge\"\ntemperature_c = 6\nsource = \"a thermometer\"\n",
                      sources));
  for (const Vessel& vessel : kit.vessels()) EXPECT_EQ(vessel.from, vessel.name == "beaker" ? "mine" : "") << vessel.name;
  for (const Place& place : kit.places()) EXPECT_EQ(place.from, place.name == "still fridge" ? "mine" : "") << place.name;
  EXPECT_EQ(kit.vessels().size(), kit.vessel_names().size());
  EXPECT_EQ(name(kit.vessels().back().kind), "mixing_glass");
  EXPECT_EQ(name(kit.place("still fridge")->kind), "still_fridge");
}

}  // namespace
}  // namespace bloomset::kit
