// larder/row.hpp - one row of the larder before it is made up: what was listed, and what the result must measure.
//
// A row says how its composition comes about (`Make`) and gives the numbers for it. The bracket of a take changes the
// numbers of a copy; compose.hpp then makes the matter. Filled by catalogue.cpp and larder_file.cpp, used in this module only.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "larder/larder.hpp"

namespace bloomset::larder {

/// How the composition comes about; the words stand in data/larder/things.csv.
enum class Make : std::uint8_t {
  listed,    // g/100 g as listed, water the rest; with `ph`, potassium until the model gives it
  fruit,     // sugars scaled to `brix`, acids to `acid`, potassium to `ph`
  solids,    // listed dry matter scaled to `brix`
  litre,     // g/L and `strength` in one litre at 20 C, water the rest
  solution,  // listed solute at `percent` of the mass
  formula,   // moles of each component; with `percent`, dissolved in water
  hard       // water with `hardness`
};

struct Row {
  std::string name;
  std::vector<std::string> also;
  Family family = Family::other;
  Make make = Make::listed;
  bool fresh = false, enzyme = false, raw_egg = false, solid = false;
  std::vector<std::string> allows, allergens;
  bool allergens_known = true;
  std::string source;
  std::string from;  // the document that brought it; empty: the catalogue
  std::vector<std::string> assumes;

  matter::Composition listed;  // g/100 g, g/L or mol, as `make` says
  // Targets and other numbers in the unit of data/larder/numbers.csv.
  std::optional<double> brix, acid, ph, strength, percent, hardness, co2, density, piece, bought_piece, pack, pack_volume, yield, wet, at, holds, storage,
      bloom, price;
  std::optional<double> acid_percent;  // g citric per 100 g: set by `% acid`, instead of `acid`
  std::string currency;
  std::vector<Variability> varies;
};

/// The numbers of a row by the name they bear in the tables.
struct RowNumber {
  std::string_view name;
  std::optional<double> Row::*value;
  double low, high;  // allowed, ends included
};
inline constexpr std::array<RowNumber, 18> row_numbers = {{{"brix", &Row::brix, 0.1, 95.0},
                                                           {"acid", &Row::acid, 0.01, 500.0},
                                                           {"ph", &Row::ph, 1.0, 12.0},
                                                           {"strength", &Row::strength, 0.0, 97.2},
                                                           {"percent", &Row::percent, 0.01, 100.0},
                                                           {"hardness", &Row::hardness, 0.0, 2000.0},
                                                           {"co2", &Row::co2, 0.0, 20.0},
                                                           {"density", &Row::density, 50.0, 3000.0},
                                                           {"piece", &Row::piece, 0.001, 5000.0},
                                                           {"bought piece", &Row::bought_piece, 0.1, 20000.0},
                                                           {"pack", &Row::pack, 0.1, 1e6},
                                                           {"pack volume", &Row::pack_volume, 1.0, 1e6},
                                                           {"yield", &Row::yield, 0.01, 1.0},
                                                           {"wet", &Row::wet, 0.0, 50.0},
                                                           {"at", &Row::at, -40.0, 0.0},
                                                           {"holds", &Row::holds, 0.0, 20.0},
                                                           {"storage", &Row::storage, -40.0, 90.0},
                                                           {"bloom", &Row::bloom, 30.0, 400.0}}};

std::optional<Make> make_named(std::string_view);
std::optional<Family> family_named(std::string_view);
/// Sets a number of a row by the tables' word: a component, `g/L …`, `mol …` or one of row_numbers. False: no such word.
bool set_number(Row&, std::string_view quantity, double value);

struct Catalogue {
  std::vector<Row> rows;
  std::string fingerprint;
};
/// The embedded tables as rows. A fault in them is internal: its message names table and line.
base::Result<Catalogue> read_catalogue();

}  // namespace bloomset::larder
