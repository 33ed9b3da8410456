// tests/sheet/demo_test.cpp - the demo against the trade's bands, and against figures that were worked out by hand.
//
// Bands: tests/reference/texture/drinks.csv (trade pages, handbooks from memory, practice), a drink against the family that it belongs to: the families are
// of drinks with spirit, and acid is asked where there is a sour part or wine. Sources disagree on dilution by a factor of two: there the span
// from the least to the most of them counts. What lies outside is named with its reason; no more than three may.
//
// Hand figures were worked out without this program: masses and volumes added up, strength as ethanol over volume, melt by a balance of heat (ice of 0 C
// with 6 % of water on it, 3 % when stirred; tin 70 J/K, mixing glass 45 J/K, both from 20 C, once a round), compositions of juices, purees and liqueurs
// assumed: so they hold within a tenth.
#include <cmath>
#include <cstdio>
#include <map>

#include "made.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using matter::Property;
using sheet_test::found;

const std::filesystem::path folder = BLOOMSET_SOURCE_DIR "/demo";

const Sheet& demo(const std::string& file) {
  static std::map<std::string, Sheet> made;
  const auto at = made.find(file);
  return at != made.end() ? at->second : made.emplace(file, sheet_test::demo(folder / (file + ".toml"))).first->second;
}

const PartSheet& part(const Sheet& sheet, const std::string& name) {
  const auto at = std::find_if(sheet.parts.begin(), sheet.parts.end(), [&name](const PartSheet& p) { return p.name == name; });
  EXPECT_NE(at, sheet.parts.end()) << sheet.title << " has no part '" << name << "'";
  static const PartSheet none;
  return at == sheet.parts.end() ? none : *at;
}

double density_g_ml(const PartSheet& p) { return p.values[Property::mass_g] / p.values[Property::volume_ml]; }

// Volumes of what goes in without ice, and what the ice adds to it, as the trade counts: water at 1 g/mL over the sum of the volumes.
struct Icing {
  double before_ml = 0.0, ice_g = 0.0, water_g = 0.0;
  double percent() const { return 100.0 * water_g / before_ml; }
};
Icing icing(const Sheet& sheet, const std::string& name) {
  const PartSheet& p = part(sheet, name);
  Icing out;
  double without_ice_g = 0.0;
  for (const TakeLine& take : p.takes) {
    if (take.ice) {
      out.ice_g += take.mass_g;
      continue;
    }
    without_ice_g += take.mass_g;
    out.before_ml += take.made ? take.mass_g / density_g_ml(part(sheet, take.thing)) : std::isnan(take.volume_ml) ? take.mass_g : take.volume_ml;
  }
  out.water_g = p.values[Property::mass_g] - without_ice_g;
  return out;
}

// --- bands ---------------------------------------------------------------------------------------------------------------------------------------

struct Band {
  double low = 0.0, high = 0.0;
  std::string row, source;
};
using Bands = std::multimap<std::pair<std::string, std::string>, Band>;  // by family and quantity

std::vector<std::string> cells(const std::string& line) {
  std::vector<std::string> out;
  std::istringstream words(line);
  for (std::string cell; std::getline(words, cell, ',');) out.push_back(cell);
  return out;
}

const Bands& bands() {
  static const Bands all = [] {
    Bands read;
    std::istringstream lines(sheet_test::text_of(BLOOMSET_SOURCE_DIR "/tests/reference/texture/drinks.csv"));
    std::string line;
    std::getline(lines, line);  // row,family,quantity,unit,low,high,tolerance,published_source,how_obtained,note
    while (std::getline(lines, line)) {
      const std::vector<std::string> c = cells(line);
      const double tolerance = std::stod(c.at(6));
      read.emplace(std::pair{c.at(1), c.at(2)}, Band{std::stod(c.at(4)) - tolerance, std::stod(c.at(5)) + tolerance, c.at(0), c.at(7)});
    }
    return read;
  }();
  return all;
}

struct Judged {
  std::string file, family, quantity;
  double value = 0.0;
};

std::vector<Judged> judged() {
  std::vector<Judged> all;
  const auto drink = [&all](const std::string& file, const std::string& family, const matter::Values& values, const std::vector<std::string>& quantities) {
    const std::map<std::string, Property> of = {
        {"strength", Property::abv_percent}, {"sugar", Property::sugar_percent}, {"acid", Property::titratable_acidity_g_100g_citric}};
    for (const std::string& quantity : quantities) all.push_back({file, family, quantity, values[of.at(quantity)]});
  };
  const auto iced = [&all](const std::string& file, const std::string& family, const std::string& name) {
    all.push_back({file, family, "dilution", icing(demo(file), name).percent()});
  };
  const auto sour = [&](const std::string& file, const std::string& name) {
    const matter::Values& values = part(demo(file), name).values;
    drink(file, "shaken sour", values, {"strength", "sugar", "acid"});
    all.push_back({file, "shaken sour", "volume before ice", icing(demo(file), name).before_ml});
    all.push_back({file, "shaken sour", "volume after ice", values[Property::volume_ml]});
    iced(file, "shaken", name);
  };
  sour("14-spindrift", "shaken aged cane");
  // Twenty grams of white and a long pour make it larger than the sours that the volumes were written for.
  drink("01-quay-sour", "shaken sour", part(demo("01-quay-sour"), "sour").values, {"strength", "sugar", "acid"});
  iced("01-quay-sour", "shaken", "sour");
  drink("02-bollard", "stirred", part(demo("02-bollard"), "stirred").values, {"strength", "sugar"});
  iced("02-bollard", "stirred", "stirred");
  drink("03-ferry-highball", "highball", demo("03-ferry-highball").serve->at_service, {"strength"});
  const Icing blended = icing(demo("04-foghorn"), "slush");
  all.push_back({"04-foghorn", "blended", "dilution", 100.0 * blended.ice_g / blended.before_ml});  // of all its ice, as the band counts
  drink("06-winter-stores", "stirred", part(demo("06-winter-stores"), "winter stores").values, {"strength", "sugar", "acid"});
  drink("08-harbour-light", "highball", demo("08-harbour-light").serve->at_service, {"strength"});
  iced("08-harbour-light", "shaken", "shaken cane");
  drink("13-clear-signal", "carbonated", demo("13-clear-signal").serve->at_service, {"strength", "sugar", "acid"});
  all.push_back({"14-spindrift", "rim", "sugar or salt on a rim", demo("14-spindrift").serve->beside_g});
  return all;
}

TEST(Demo, LiesInTheBandsOfTheTradeButForTheNamedMisses) {
  const std::map<std::string, std::string> named = {
      {"01-quay-sour acid", "the white of an egg thins it: 0.73 % where the band of a sour begins at 0.75"},
      {"02-bollard sugar", "a spoon of rich syrup and no wine: sweeter than the family, whose sugar comes with vermouth"},
      {"06-winter-stores acid", "a quarter of it is wine of 3 g/L, let down with water; the family's acid is that of a third of vermouth"},
  };
  std::map<std::string, std::string> misses;
  int count = 0;
  for (const Judged& j : judged()) {
    const auto [begin, end] = bands().equal_range({j.family, j.quantity});
    ASSERT_NE(begin, end) << "no band of " << j.family << ", " << j.quantity;
    double low = j.value, high = j.value;
    bool first = true;
    for (auto row = begin; row != end; ++row, first = false) {
      low = first ? row->second.low : std::min(low, row->second.low);
      high = first ? row->second.high : std::max(high, row->second.high);
    }
    const bool inside = low <= j.value && j.value <= high;
    std::printf("%-20s %-12s %-24s %8.2f %s\n", j.file.c_str(), j.family.c_str(), j.quantity.c_str(), j.value, inside ? "" : "outside");
    ++count;
    if (!inside) misses.emplace(j.file + " " + j.quantity, "");
  }
  EXPECT_GE(count, 20);
  EXPECT_LE(named.size(), 3U);
  for (const auto& [what, why] : misses) EXPECT_TRUE(named.contains(what)) << what;
  for (const auto& [what, why] : named) EXPECT_TRUE(misses.contains(what)) << what << " is met after all: take it off the list";
}

// --- by hand -------------------------------------------------------------------------------------------------------------------------------------

struct Figure {
  std::string file, what;
  double by_hand = 0.0, computed = 0.0;
};

std::vector<Figure> figures() {
  std::vector<Figure> all;
  const auto drink = [&all](const std::string& file, const matter::Values& v, double volume_ml, double strength, double sugar, double acid) {
    const auto add = [&](const char* what, double by_hand, Property p) {
      if (!std::isnan(by_hand)) all.push_back({file, what, by_hand, v[p]});
    };
    add("volume, mL", volume_ml, Property::volume_ml);
    add("strength, %vol", strength, Property::abv_percent);
    add("sugar, %", sugar, Property::sugar_percent);
    add("acid, % as citric", acid, Property::titratable_acidity_g_100g_citric);
  };
  const auto served = [](const std::string& file) -> const matter::Values& { return demo(file).serve->at_service; };
  const auto of = [](const std::string& file, const std::string& name) -> const matter::Values& { return part(demo(file), name).values; };
  const auto full_ml = [](const std::string& file) { return demo(file).serve->brim_ml - demo(file).serve->headroom_ml; };
  constexpr double none = matter::cannot_be_given;

  drink("01-quay-sour", of("01-quay-sour", "sour"), 171.0, 13.8, 7.4, 0.74);
  drink("02-bollard", of("02-bollard", "stirred"), 100.0, 27.6, 6.7, none);
  drink("03-ferry-highball", served("03-ferry-highball"), 187.0, 10.4, none, none);
  all.push_back({"03-ferry-highball", "in the glass, mL", 322.0, full_ml("03-ferry-highball")});
  const matter::Values& slush = of("04-foghorn", "slush");
  all.push_back({"04-foghorn", "strength, all melted", 8.1, slush[Property::abv_percent_all_melted]});
  all.push_back({"04-foghorn", "strength of the liquid", 12.0, slush[Property::abv_percent]});
  all.push_back({"04-foghorn", "sugar of all, %", 6.5, 100.0 * slush[Property::sugars_g] / (slush[Property::mass_g] + slush[Property::ice_g])});
  drink("05-low-tide", served("05-low-tide"), 202.0, none, 7.6, 0.62);
  drink("06-winter-stores", of("06-winter-stores", "winter stores"), 889.0, 26.2, 4.1, none);
  drink("07-lamp-room", of("07-lamp-room", "hot apple"), 177.0, 7.9, 12.0, none);
  drink("08-harbour-light", of("08-harbour-light", "shaken cane"), 132.0, 13.6, none, none);
  drink("08-harbour-light", served("08-harbour-light"), 192.0, 9.4, 8.1, 0.62);
  all.push_back({"08-harbour-light", "in the glass, mL", 337.0, full_ml("08-harbour-light")});
  const SiphonLine& cloud = *part(demo("08-harbour-light"), "orange cloud").siphon;
  all.push_back({"08-harbour-light", "bar in the bottle", 5.3, cloud.at_service_bar_gauge});
  all.push_back({"08-harbour-light", "overrun of the cloud, %", 210.0, cloud.overrun_mean});
  const SiphonLine& lamp = *part(demo("07-lamp-room"), "oat lamp").siphon;
  all.push_back({"07-lamp-room", "bar in the bath", 10.4, lamp.peak_bar_gauge});
  const PartSheet& buoys = part(demo("09-buoy-cubes"), "buoy cubes");
  all.push_back({"09-buoy-cubes", "lands at, C", 64.0, buoys.steps.at(2).after[Property::temperature_c]});
  all.push_back({"09-buoy-cubes", "mass, g", 518.0, buoys.batch_mass_g});
  all.push_back({"09-buoy-cubes", "strength, %vol", 7.5, buoys.values[Property::abv_percent]});
  const PartSheet& cream = part(demo("10-pier-tart"), "lemon cream");
  all.push_back({"10-pier-tart", "mass, g", 606.0, cream.batch_mass_g});
  drink("10-pier-tart", cream.values, none, none, 30.0, 1.7);
  const PartSheet& mango = part(demo("12-buoys-and-roe"), "mango buoys");
  all.push_back({"12-buoys-and-roe", "mango and all, g", 291.0, mango.steps.at(0).after[Property::mass_g]});
  all.push_back({"12-buoys-and-roe", "strength, %vol", 4.5, mango.steps.at(0).after[Property::abv_percent]});
  all.push_back({"12-buoys-and-roe", "density, kg/m3", 1070.0, mango.values[Property::density_kg_m3]});
  const PartSheet& rhubarb = part(demo("13-clear-signal"), "rhubarb");
  all.push_back({"13-clear-signal", "lands at, C", 46.0, rhubarb.steps.at(2).after[Property::temperature_c]});
  all.push_back({"13-clear-signal", "runs clear, g", 350.0, rhubarb.batch_mass_g});
  drink("13-clear-signal", rhubarb.values, none, none, none, 1.1);
  drink("13-clear-signal", of("13-clear-signal", "signal"), 931.0, 14.2, 7.0, 0.52);
  all.push_back({"13-clear-signal", "CO2, volumes", 3.8, of("13-clear-signal", "signal")[Property::co2_volumes]});
  drink("14-spindrift", of("14-spindrift", "shaken aged cane"), 146.0, 17.7, 7.0, 0.92);
  return all;
}

TEST(Demo, AgreesWithFiguresWorkedOutByHand) {
  const std::map<std::string, std::string> named = {
      {"08-harbour-light, acid, % as citric", "by hand no ice melts in the glass and the soda brings 3 g/L of acid; the larder's has 2"},
      {"08-harbour-light, overrun of the cloud, %", "by hand gas dissolves as in water; sugar lets 9 % less in (`charge` with 366 g of water gives 204 %)"},
  };
  for (const Figure& f : figures()) {
    const bool agrees = std::abs(f.computed - f.by_hand) <= 0.10 * std::abs(f.by_hand);
    std::printf("%-20s %-26s by hand %8.2f, here %8.2f (%+.1f %%)\n", f.file.c_str(), f.what.c_str(), f.by_hand, f.computed,
                100.0 * (f.computed / f.by_hand - 1.0));
    EXPECT_NE(agrees, named.contains(f.file + ", " + f.what)) << f.file << ", " << f.what << ": " << f.computed << ", by hand " << f.by_hand;
  }
}

// --- findings ------------------------------------------------------------------------------------------------------------------------------------

TEST(Demo, OnlyTheWreckFails) {
  for (const auto& path : sheet_test::demos()) {
    const Sheet& sheet = demo(path.stem().string());
    EXPECT_EQ(sheet.stop(), path.stem() == "15-wreck") << path << "\n" << sheet_test::all_findings(sheet);
    for (const TargetLine& target : sheet.targets) EXPECT_TRUE(target.met) << path << ": " << target.target;
  }
}

TEST(Demo, TheWreckIsStoppedByItsEnzymeAndMendedByHeat) {
  const base::Finding* enzyme = found(demo("15-wreck"), Code::live_enzyme);
  ASSERT_NE(enzyme, nullptr);
  EXPECT_EQ(enzyme->weight, base::Weight::stop);
  const Sheet& mended = demo("15-wreck-mended");
  for (const Code code : {Code::live_enzyme, Code::enzyme_contact, Code::will_not_set}) EXPECT_EQ(found(mended, code), nullptr) << base::name(code);
  EXPECT_GT(mended.serve->at_service[Property::foam_volume_ml], 50.0);  // 30 g of foam that stands at an overrun of more than 100 %
}

// By hand: at -18 C about a fifth of it is ice; without its water it has 32.4 %vol and nearly none.
TEST(Demo, WinterStoresIsSlushInTheFreezerAndItsSpiritAndWineAreNot) {
  const std::string text = sheet_test::text_of(folder / "06-winter-stores.toml");
  const auto with = [&text](std::string from, const std::string& to, std::string changed) {
    const std::size_t at = changed.find(from);
    EXPECT_NE(at, std::string::npos) << text;
    return changed.replace(at, from.size(), to);
  };
  const std::string cold = with("-10 to -8 C", "-18 C", text);
  const auto ice_share = [](const matter::Values& v) { return v[Property::ice_g] / (v[Property::ice_g] + v[Property::mass_g]); };
  const Sheet whole = sheet_test::made(cold), undiluted = sheet_test::made(with("170 mL water", "0.1 mL water", cold));
  EXPECT_NEAR(ice_share(whole.parts[0].values), 0.20, 0.04);
  EXPECT_LT(ice_share(undiluted.parts[0].values), 0.03);
  EXPECT_NEAR(undiluted.parts[0].values[Property::abv_percent_all_melted], 32.4, 0.32);
}

// 300 mL at 40 % in 540 g, gelatin 2.2 %: sets, softer; a cube of 22 g holds 3.9 g of ethanol. By hand.
TEST(Demo, TheNightWatchStandsAtTheEdgeOfSetting) {
  const Sheet& jelly = demo("11-night-watch-jelly");
  EXPECT_NEAR(part(jelly, "night watch").batch_mass_g, 540.0, 54.0);
  EXPECT_NEAR(part(jelly, "night watch").values[Property::abv_percent], 22.3, 1.0);
  EXPECT_NEAR(jelly.serve->at_service[Property::ethanol_g], 3.9, 0.1);
  const base::Finding* strong = found(jelly, Code::too_strong);
  ASSERT_NE(strong, nullptr);
  EXPECT_EQ(strong->weight, base::Weight::mind);
  EXPECT_EQ(found(jelly, Code::will_not_set), nullptr);
}

// Below pH 4 alginate gives no skin the direct way; about 2 g of citrate bring 300 g of elderflower base over it. Drops denser than their bath sink. Practice.
TEST(Demo, TheRoeIsBufferedAndTheBuoysSink) {
  const Sheet& spheres = demo("12-buoys-and-roe");
  EXPECT_GE(part(spheres, "elderflower base").values[Property::ph_25c], 4.0);
  EXPECT_GT(density_g_ml(part(spheres, "mango buoys")), density_g_ml(part(spheres, "alginate bath")));
  for (const Code code : {Code::will_not_set, Code::too_acid, Code::too_hard_water, Code::sinks_or_floats, Code::short_of})
    EXPECT_EQ(found(spheres, code), nullptr) << found(spheres, code)->says;
}

// Four fifths of a milk's protein and nearly all its fat stay in the curd (milk protein handbooks: casein is 76 to 82 % of it).
TEST(Demo, TheMilkPunchRunsClear) {
  const Sheet& punch = demo("16-moonlit-milk");
  EXPECT_EQ(found(punch, Code::will_not_set), nullptr) << "it curdles";
  EXPECT_EQ(found(punch, Code::curdles), nullptr) << "and is meant to";
  EXPECT_NEAR(part(punch, "milk punch").batch_mass_g, 0.8 * 738.0, 0.03 * 738.0);  // takes added up by hand
}

// Regulation (EU) 1169/2011 Annex II: oats are cereals containing gluten, milk and eggs are allergens; lecithin may be of soy, so it is asked.
TEST(Demo, NamesWhatGuestsMustBeTold) {
  const auto names = [](const std::string& file, const std::string& code) {
    const auto& all = demo(file).serve->allergens;
    return std::find(all.begin(), all.end(), code) != all.end();
  };
  EXPECT_TRUE(names("07-lamp-room", "gluten_cereals"));
  EXPECT_TRUE(names("10-pier-tart", "eggs"));
  EXPECT_TRUE(names("10-pier-tart", "gluten_cereals"));
  EXPECT_TRUE(names("14-spindrift", "?soybeans"));
  EXPECT_TRUE(names("16-moonlit-milk", "milk"));
  EXPECT_NE(found(demo("09-buoy-cubes"), Code::over_legal_limit), nullptr) << "agar: 21 CFR 184.1115, 0.25 % in what is none of its categories";
}

}  // namespace
}  // namespace bloomset::sheet
