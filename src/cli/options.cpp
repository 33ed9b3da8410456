#include "cli/options.hpp"

#include <CLI/CLI.hpp>
#include <limits>
#include <sstream>

#include "cli/help_words.hpp"
#include "solve/scatter.hpp"

namespace bloomset::cli {
namespace {

constexpr std::int64_t most_draws = solve::most_draws;

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
  DoseOptions dose;
  GelatinOptions gelatin;
  ChargeOptions charge;
  SubstituteOptions substitute;
  BalanceOptions balance;
  BatchOptions batch;
  RatioOptions ratio;
  RefitOptions refit;
  ScatterOptions scatter;
  ShelfOptions shelf;
  OpenOptions open;

  CLI::App app(about, "bloomset");
  app.set_version_flag("--version", "bloomset " BLOOMSET_VERSION);
  app.set_help_flag("-h,--help", "this help");
  app.footer(examples);
  app.require_subcommand(1);
  add_common(app, request.common);

  CLI::App& sheet_command = add_command(app, "sheet", "everything computed for a formula: amounts, steps, properties, findings, balance", sheet_examples);
  sheet_command.add_option("formula", sheet.formula, "the formula's file")->required()->type_name("FORMULA");
  sheet_command.add_option("--serves", sheet.serves, "for this many serves instead of the document's")->check(CLI::Range(1, 10000))->type_name("N");

  CLI::Option* fit =
      sheet_command.add_option("--fit", sheet.fit, "a part that shall fill a vessel: \"'orange cloud'=siphon, one litre\"")->type_name("'PART'=VESSEL");
  sheet_command.add_option("--have", sheet.have, "make as much as this allows: \"730 g orange juice\"")->type_name("AMOUNT THING")->excludes(fit);
  sheet_command.add_flag("--scatter", sheet.scatter, "how far the serve's readings swing beside them: 4,096 draws of the command scatter");

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

  CLI::App& dose_command = add_command(app, "dose", "how much of an agent for an effect: grams, leaves, method, bottle and chargers", dose_examples);
  dose_command.add_option("base", dose.mixture, "what it goes into: amounts and things, parted by ` + `")->required()->type_name("MIXTURE");
  dose_command.add_option("--with", dose.agent, "the agent; in brackets Bloom and mass of a leaf")->required()->type_name("AGENT");
  dose_command.add_option("--for", dose.effect, "the effect, such as \"cold foam\"")->type_name("EFFECT");
  dose_command.add_option("--scale", dose.scale, "a step of your scale, to tell doses too small for it")->capture_default_str()->type_name("MASS");

  CLI::App& gelatin_command = add_command(app, "gelatin", "one gelatin in place of another: leaves, powder, grades, by every rule in use", gelatin_examples);
  gelatin_command.add_option("amount", gelatin.amount, "what the recipe has: `4 g` or `3 leaves`")->required()->type_name("AMOUNT");
  gelatin_command.add_option("--from", gelatin.from, "the recipe's gelatin")->required()->type_name("GELATIN");
  gelatin_command.add_option("--to", gelatin.to, "the one at hand")->required()->type_name("GELATIN");

  CLI::App& charge_command = add_command(app, "charge", "a charged bottle: pressure, gas in the liquid, the most foam it can give", charge_examples);
  charge_command.add_option("--gas", charge.gas, "N2O or CO2")->capture_default_str()->type_name("GAS");
  charge_command.add_option("--bottle", charge.bottle, "gross volume, or a siphon or bottle of the kit")->required()->type_name("VOLUME|NAME");
  charge_command.add_option("--liquid", charge.liquid, "amounts and things, parted by ` + `")->required()->type_name("MIXTURE");
  charge_command.add_option("--charges", charge.charges, "how many chargers")->type_name("N");
  charge_command.add_option("--charge-mass", charge.charge_mass, "gas in one charger")->capture_default_str()->type_name("MASS");
  charge_command.add_option("--at", charge.at, "temperature of bottle and liquid")->capture_default_str()->type_name("TEMPERATURE");
  charge_command.add_option("--max-charges", charge.most_charges, "how many the bottle's maker allows")->type_name("N");
  charge_command.add_option("--fill-line", charge.fill_line, "the maker's; without it three quarters of the gross volume")->type_name("VOLUME");
  charge_command.add_flag("--purged", charge.purged, "the air was let out first");
  charge_command.add_option("--pressure", charge.pressure, "with --charges: what the bottle is stated for; CO2 without: the regulator's")->type_name("BAR");

  CLI::App& substitute_command = add_command(app, "substitute", "another agent for the same effect in a formula", substitute_examples);
  substitute_command.add_option("formula", substitute.formula, "the formula's file")->required()->type_name("FORMULA");
  substitute_command.add_option("--agent", substitute.agent, "the agent to be replaced")->required()->type_name("AGENT");
  substitute_command.add_option("--for", substitute.wanted, "the agent wanted instead; without it all are tried")->type_name("AGENT");
  substitute_command.add_option("--part", substitute.part, "the part, where several take the agent")->type_name("PART");
  substitute_command.add_flag("--vegan", substitute.vegan, "only agents of no animal");
  substitute_command.add_flag("--vegetarian", substitute.vegetarian, "no agent for which an animal dies");

  CLI::App& balance_command = add_command(app, "balance", "amounts that meet targets, or which targets contradict", balance_examples);
  balance_command.add_option("formula", balance.formula, "the formula's file")->required()->type_name("FORMULA");
  balance_command.add_option("--target", balance.targets, "a wish, such as \"serve.abv 14 %\"; without any the document's own")
      ->type_name("TARGET")
      ->allow_extra_args(false);
  balance_command.add_option("--vary", balance.vary, "a thing whose amount may change; without any all that is bought by measure")
      ->type_name("THING")
      ->allow_extra_args(false);
  balance_command.add_flag("--exact", balance.exact, "do not round to what a kitchen can measure");
  balance_command.add_option("--serves", balance.serves, "for this many serves instead of the document's")->check(CLI::Range(1, 10000))->type_name("N");

  CLI::App& batch_command = add_command(app, "batch", "a part made to order as a bottled batch, with water for the ice", batch_examples);
  batch_command.add_option("formula", batch.formula, "the formula's file")->required()->type_name("FORMULA");
  batch_command.add_option("--part", batch.part, "the part that is bottled")->required()->type_name("PART");
  batch_command.add_option("--serves", batch.serves, "for how many serves; else the document's")->check(CLI::Range(1, 10000))->type_name("N");
  batch_command.add_option("--bottle", batch.bottle, "what a bottle holds")->capture_default_str()->type_name("VOLUME");
  batch_command.add_option("--hold", batch.hold, "where it waits: a place of the kit, such as freezer; else its first still fridge")->type_name("PLACE");

  CLI::App& ratio_command = add_command(app, "ratio", "a drink told in parts by volume: its amounts, its properties, its document", ratio_examples);
  ratio_command.add_option("ratio", ratio.ratio, "numbers, parted by `:`")->required()->type_name("RATIO");
  ratio_command.add_option("things", ratio.things, "as many things, in the same order")->required()->type_name("THING");
  ratio_command.add_option("--total", ratio.total, "of the things as poured, side by side")->capture_default_str()->type_name("VOLUME");
  ratio_command.add_option("--target", ratio.target, "a wish on the drink that water shall meet: \"abv 20 %\"")->type_name("TARGET");
  ratio_command.add_flag("--exact", ratio.exact, "do not round to what a jigger can do");

  CLI::App& refit_command = add_command(app, "refit", "the same drink with another spirit, juice, syrup, gelatin or bottle", refit_examples);
  refit_command.add_option("formula", refit.formula, "the formula's file")->required()->type_name("FORMULA");
  refit_command.add_option("--swap", refit.swaps, "a thing of the document, =, and what there is instead")
      ->required()
      ->type_name("THING=THING")
      ->allow_extra_args(false);
  refit_command.add_flag("--exact", refit.exact, "do not round to what a kitchen can measure");
  refit_command.add_option("--serves", refit.serves, "for this many serves instead of the document's")->check(CLI::Range(1, 10000))->type_name("N");

  CLI::App& scatter_command = add_command(app, "scatter", "how a drink varies with fruit, ice, tools and hands, and what drives it", scatter_examples);
  scatter_command.add_option("formula", scatter.formula, "the formula's file")->required()->type_name("FORMULA");
  scatter_command.add_option("--draws", scatter.draws, "how many times the drink is made")
      ->capture_default_str()
      ->check(CLI::Range(std::int64_t{1}, most_draws))
      ->type_name("N");
  scatter_command.add_option("--seed", scatter.seed, "another seed draws other fruit; the same one gives the same answer")
      ->capture_default_str()
      ->check(CLI::Range(std::int64_t{0}, std::numeric_limits<std::int64_t>::max()))
      ->type_name("S");
  scatter_command.add_option("--serves", scatter.serves, "for this many serves instead of the document's")->check(CLI::Range(1, 10000))->type_name("N");

  CLI::App& shelf_command = add_command(app, "shelf", "the stored collection of documents: look it through, copy it, to and from a folder", shelf_examples);
  shelf_command.require_subcommand(1);
  shelf_command.add_option("--shelf", shelf.shelf, "the shelf's file; without it bloomset/bloomset.shelf in your data folder")->type_name("FILE");
  const auto shelf_act = [&](const char* name, ShelfAct act, const char* does, const char* place, const char* what) {
    CLI::App& command = add_command(shelf_command, name, does, "");
    if (place != nullptr) command.add_option("place", shelf.place, what)->required()->type_name(place);
    command.callback([&shelf, act] { shelf.act = act; });
  };
  shelf_act("check", ShelfAct::check, "look through the whole file", nullptr, "");
  shelf_act("backup", ShelfAct::backup, "copy it, with all revisions, while it is in use", "FILE", "a file that is not there yet");
  shelf_act("export", ShelfAct::export_to, "the last text of every document as KIND/NAME.toml", "FOLDER", "a folder that is not there yet");
  shelf_act("import", ShelfAct::import_from, "take in every KIND/NAME.toml; what differs becomes a new revision", "FOLDER", "a folder such as export makes");

  CLI::App& open_command = add_command(app, "open", "the bench in the browser: serves its page on this machine until Ctrl-C", open_examples);
  open_command.add_option("--port", open.port, "of 127.0.0.1; 0: any that is free")->capture_default_str()->check(CLI::Range(0, 65535))->type_name("P");
  open_command.add_option("--shelf", open.shelf, "the shelf's file; without it bloomset/bloomset.shelf in your data folder")->type_name("FILE");
  open_command.add_flag("--lan", open.lan, "other devices of your net may come in, with a pairing code");
  open_command.add_flag_callback(
      "--no-browser", [&open] { open.browser = false; }, "do not open the browser");

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
  else if (chill_command.parsed())
    request.command = std::move(chill);
  else if (dose_command.parsed())
    request.command = std::move(dose);
  else if (gelatin_command.parsed())
    request.command = std::move(gelatin);
  else if (charge_command.parsed())
    request.command = std::move(charge);
  else if (balance_command.parsed())
    request.command = std::move(balance);
  else if (batch_command.parsed())
    request.command = std::move(batch);
  else if (ratio_command.parsed())
    request.command = std::move(ratio);
  else if (refit_command.parsed())
    request.command = std::move(refit);
  else if (scatter_command.parsed())
    request.command = std::move(scatter);
  else if (open_command.parsed())
    request.command = std::move(open);
  else if (shelf_command.parsed())
    request.command = std::move(shelf);
  else
    request.command = std::move(substitute);
  reading.request = std::move(request);
  return reading;
}

}  // namespace bloomset::cli
