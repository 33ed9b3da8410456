#include "cli/options.hpp"

#include <CLI/CLI.hpp>
#include <sstream>

namespace bloomset::cli {
namespace {

constexpr const char* about =
    "bloomset keeps a mass and energy balance of a formula, and reads strength, sweetness, acidity, pH, volume,\n"
    "cold and dilution off it.";

constexpr const char* examples = R"help(Examples
  bloomset sheet demo/01-quay-sour.toml                     the sheet, for the document's number of serves
  bloomset sheet demo/01-quay-sour.toml --serves 28         the same for a full room
  bloomset check demo                                       findings and targets of every formula in a folder
  bloomset mix "40 g ethanol + 60 g water"                  properties of any mixture at 20 C
  bloomset chill "60 mL spirit (40 %vol) + 25 mL syrup (50 brix)" --ice 200g

Exit codes
  0 done · 1 a sheet or check with a `stop` finding or a missed target · 2 bad input · 3 a fault of the program)help";

constexpr const char* sheet_examples = R"help(Examples
  bloomset sheet demo/01-quay-sour.toml
  bloomset sheet demo/01-quay-sour.toml --serves 28
  bloomset sheet demo/01-quay-sour.toml --json)help";

constexpr const char* check_examples = R"help(Examples
  bloomset check demo/01-quay-sour.toml                     one formula, with all its notes
  bloomset check demo                                       every *.toml below a folder; notes are counted only
  bloomset check demo --json)help";

constexpr const char* mix_examples = R"help(Examples
  bloomset mix "40 g ethanol + 60 g water" --at 20C
  bloomset mix "30 mL lemon juice + 20 mL syrup (50 brix)" --at 4C
  bloomset mix "20 g ethanol + 80 g water" --at -18C        below its freezing point: ice, and what stays liquid

Things are bought things of the larder (in brackets what the label says), or pure: water, ethanol, sucrose, glucose,
fructose, maltose, lactose, glycerol, citric acid, malic acid, … A volume is measured at 20 C.)help";

constexpr const char* chill_examples = R"help(Examples
  bloomset chill "60 mL spirit (40 %vol) + 25 mL syrup (50 brix)" --at 20C --ice 200g --ice-at 0C
  bloomset chill "100 g water" --ice 80g --ice-at -18C
  bloomset chill "90 mL spirit (40 %vol)" --ice 250g --by stir --for 30s --vessel-heat 45J/K
  bloomset chill "90 mL spirit (40 %vol)" --ice 250g --to 0C --surface-water 15g

Without --to and --for the drink stays on the ice until nothing changes any more.)help";

void add_common(CLI::App& app, Common& common) {
  app.add_flag("--json", common.json, "one JSON document on standard output instead of text");
  app.add_option("--larder", common.larder, "a file of things that add to the larder or take the place of its rows")->type_name("FILE");
  app.add_option("--kit", common.kit, "a file of equipment that adds to the kit")->type_name("FILE");
  app.add_option("--calibration", common.calibration, "a file of this kitchen's own constants (not yet read: refused)")->type_name("FILE");
}

CLI::App& add_command(CLI::App& app, const char* name, const char* does, const char* footer) {
  CLI::App& command = *app.add_subcommand(name, does);
  command.fallthrough();  // --json and the files may stand behind the command too
  command.footer(footer);
  return command;
}

}  // namespace

Reading read_command_line(int count, const char* const* words) {
  Request request;
  SheetOptions sheet;
  CheckOptions check;
  MixOptions mix;
  ChillOptions chill;

  CLI::App app(about, "bloomset");
  app.set_version_flag("--version", "bloomset " BLOOMSET_VERSION);
  app.set_help_flag("-h,--help", "this help");
  app.footer(examples);
  app.require_subcommand(1);
  add_common(app, request.common);

  CLI::App& sheet_command = add_command(app, "sheet", "everything computed for a formula: amounts, steps, properties, findings, balance", sheet_examples);
  sheet_command.add_option("formula", sheet.formula, "the formula's file")->required()->type_name("FORMULA");
  sheet_command.add_option("--serves", sheet.serves, "for this many serves instead of the document's")->check(CLI::Range(1, 10000))->type_name("N");

  CLI::App& check_command = add_command(app, "check", "findings and targets only, of formulas or of every *.toml below a folder", check_examples);
  check_command.add_option("formulas", check.paths, "formulas or folders")->required()->type_name("FORMULA|FOLDER");

  CLI::App& mix_command = add_command(app, "mix", "properties of any mixture", mix_examples);
  mix_command.add_option("mixture", mix.mixture, "amounts and things, parted by ` + `")->required()->type_name("MIXTURE");
  mix_command.add_option("--at", mix.at, "temperature")->capture_default_str()->type_name("TEMPERATURE");

  CLI::App& chill_command = add_command(app, "chill", "a mixture on ice: how cold, how much melts, how strong after", chill_examples);
  chill_command.add_option("mixture", chill.mixture, "amounts and things, parted by ` + `")->required()->type_name("MIXTURE");
  chill_command.add_option("--at", chill.at, "temperature of the mixture before")->capture_default_str()->type_name("TEMPERATURE");
  chill_command.add_option("--ice", chill.ice, "ice, its surface water included")->required()->type_name("MASS");
  chill_command.add_option("--ice-at", chill.ice_at, "temperature of the ice, at most 0 C")->capture_default_str()->type_name("TEMPERATURE");
  CLI::Option* to = chill_command.add_option("--to", chill.to, "stop when the drink is this cold")->type_name("TEMPERATURE");
  CLI::Option* time = chill_command.add_option("--for", chill.for_how_long, "stop after this time")->type_name("TIME")->excludes(to);
  chill_command.add_option("--by", chill.by, "what is done meanwhile: shake (where not said), stir or blend")->type_name("ACT")->needs(time);
  chill_command.add_option("--leftover-ice", chill.leftover_ice, "unmelted ice keeps its temperature (inert) or ends at the drink's (follows)")
      ->capture_default_str()
      ->check(CLI::IsMember({"inert", "follows"}))
      ->type_name("WHICH");
  chill_command.add_option("--surface-water", chill.surface_water, "water on the ice, part of --ice; counts as melt")->capture_default_str()->type_name("MASS");
  chill_command.add_option("--vessel-heat", chill.vessel_heat, "heat capacity of the vessel, which cools from 20 C with the drink")
      ->capture_default_str()
      ->type_name("J/K");

  Reading reading;
  try {
    app.parse(count, words);
  } catch (const CLI::ParseError& end) {
    std::ostringstream out, err;
    const bool well = app.exit(end, out, err) == 0;
    reading.exit_code = well ? 0 : 2;
    reading.out = out.str();
    reading.err = err.str();
    return reading;
  }
  if (sheet_command.parsed())
    request.command = std::move(sheet);
  else if (check_command.parsed())
    request.command = std::move(check);
  else if (mix_command.parsed())
    request.command = std::move(mix);
  else
    request.command = std::move(chill);
  reading.request = std::move(request);
  return reading;
}

}  // namespace bloomset::cli
