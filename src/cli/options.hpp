// cli/options.hpp - the command line as plain values: which command, with what. The only file behind it that knows CLI11
// is options.cpp. Quantities stay texts here; the commands read them, so that a fault can point at the very letter.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace bloomset::cli {

struct Common {
  bool json = false;
  std::optional<std::string> larder, kit, calibration;  // files that add to what is built in
};

struct SheetOptions {
  std::string formula;
  std::optional<int> serves;  // nothing: the document's own number
  std::optional<std::string> fit, have;
  bool scatter = false;
};

struct CheckOptions {
  std::vector<std::string> paths;  // formulas and folders
};

struct MixOptions {
  std::string mixture;
  std::string at = "20 C";
};

struct ChillOptions {
  std::string mixture;
  std::string at = "20 C";  // of liquid and vessel before the ice
  std::string ice, ice_at = "0 C";
  std::optional<std::string> to, for_how_long, by;  // neither `to` nor `for`: to equilibrium
  std::string leftover_ice = "inert";
  std::string surface_water = "0 g", vessel_heat = "0 J/K";
};

struct DoseOptions {
  std::string mixture, agent;
  std::optional<std::string> effect;  // nothing: the first that the agent is taken for, and a finding says so
  std::string scale = "0.1 g";        // what an ordinary kitchen scale shows
};

struct GelatinOptions {
  std::string amount, from, to;
};

struct ChargeOptions {
  std::string gas = "N2O", bottle, liquid;  // bottle: gross volume, or a siphon of the kit
  std::optional<int> charges, most_charges;
  std::string charge_mass = "8 g";  // the usual charger
  std::string at = "5 C";
  std::optional<std::string> fill_line, pressure;
  bool purged = false;
};

struct SubstituteOptions {
  std::string formula, agent;
  std::optional<std::string> wanted, part;
  bool vegan = false, vegetarian = false;
};

struct BalanceOptions {
  std::string formula;
  std::vector<std::string> targets;  // none: the document's own
  std::vector<std::string> vary;     // none: all that is bought by measure
  std::optional<int> serves;
  bool exact = false;
};

struct BatchOptions {
  std::string formula, part, bottle = "700 mL";  // the usual bottle of the trade
  std::optional<std::string> hold;               // nothing: the kit's first still fridge
  std::optional<int> serves;
};

struct RatioOptions {
  std::string ratio, total = "90 mL";  // a short drink before its ice
  std::vector<std::string> things;
  std::optional<std::string> target;
  bool exact = false;
};

struct RefitOptions {
  std::string formula;
  std::vector<std::string> swaps;
  std::optional<int> serves;
  bool exact = false;
};

struct ScatterOptions {
  std::string formula;
  std::int64_t draws = 4096, seed = 1;
  std::optional<int> serves;
};

enum class ShelfAct : std::uint8_t { check, backup, export_to, import_from };
struct ShelfOptions {
  ShelfAct act = ShelfAct::check;
  std::string place;                 // backup: a file; export, import: a folder
  std::optional<std::string> shelf;  // nothing: in the user's data folder
};

struct OpenOptions {
  int port = 8420;
  std::optional<std::string> shelf;  // nothing: in the user's data folder
  bool lan = false, browser = true;
};

struct Request {
  Common common;
  std::variant<std::monostate, SheetOptions, CheckOptions, MixOptions, ChillOptions, DoseOptions, GelatinOptions, ChargeOptions, SubstituteOptions,
               BalanceOptions, BatchOptions, RatioOptions, RefitOptions, ScatterOptions, ShelfOptions, OpenOptions>
      command;
};

/// What came of reading the command line: a request, or (help, version, a fault) texts and an exit code.
struct Reading {
  std::optional<Request> request;
  int exit_code = 0;
  std::string out, err;
};
Reading read_command_line(int count, const char* const* words);

}  // namespace bloomset::cli
