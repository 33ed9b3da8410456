// cli/help_words.hpp - the words of --help: what the program is, and examples of every command, each of which a test runs.
//
// Kept apart from options.cpp so that the grammar of the command line can be read in one go. A line that begins with `bloomset` is a
// command; what stands behind five blanks or more is said of it.
#pragma once

namespace bloomset::cli {

inline constexpr const char* about =
    "bloomset keeps a mass and energy balance of a formula, and reads strength, sweetness, acidity, pH, volume,\n"
    "cold and dilution off it.";

inline constexpr const char* examples = R"help(Examples
  bloomset sheet demo/01-quay-sour.toml                     the sheet, for the document's number of serves
  bloomset sheet demo/01-quay-sour.toml --serves 28         the same for a full room
  bloomset check demo                                       findings and targets of every formula in a folder
  bloomset mix "40 g ethanol + 60 g water"                  properties of any mixture at 20 C
  bloomset chill "60 mL spirit (40 %vol) + 25 mL syrup (50 brix)" --ice 200g
  bloomset dose "730 g orange juice" --with "gelatin, gold leaf" --for "cold foam"
  bloomset gelatin "3 leaves" --from "gelatin, gold leaf" --to "gelatin, powder (225 bloom)"
  bloomset charge --bottle "siphon, half litre" --liquid "450 g orange juice" --charges 1
  bloomset substitute demo/01-quay-sour.toml --agent "egg white"
  bloomset scatter demo/01-quay-sour.toml                   how it varies, and what to measure first
  bloomset balance demo/01-quay-sour.toml --target "serve.abv 14 %" --vary "juniper spirit (43 %vol)"
  bloomset refit demo/01-quay-sour.toml --swap "juniper spirit (43 %vol)=juniper spirit (47 %vol)"
  bloomset batch demo/08-harbour-light.toml --part "'shaken cane'" --serves 40
  bloomset ratio "2 : 1 : 0.75" "spirit (40 %vol)" "syrup (50 brix)" "lime juice"
  bloomset open                                             the bench in the browser

Exit codes
  0 done · 1 a sheet or check with a `stop` finding or a missed target · 2 bad input · 3 a fault of the program)help";

inline constexpr const char* sheet_examples = R"help(Examples
  bloomset sheet demo/01-quay-sour.toml
  bloomset sheet demo/01-quay-sour.toml --serves 28
  bloomset sheet demo/08-harbour-light.toml --fit "'orange cloud'=siphon, one litre"
  bloomset sheet demo/08-harbour-light.toml --have "400 g ginger soda"
  bloomset sheet demo/01-quay-sour.toml --scatter           beside the readings what 1 in 20 drinks stays below, and above
  bloomset sheet demo/01-quay-sour.toml --json)help";

inline constexpr const char* check_examples = R"help(Examples
  bloomset check demo/01-quay-sour.toml                     one formula, with all its notes
  bloomset check demo                                       every *.toml below a folder; notes are counted only
  bloomset check demo --json)help";

inline constexpr const char* mix_examples = R"help(Examples
  bloomset mix "40 g ethanol + 60 g water" --at 20C
  bloomset mix "30 mL lemon juice + 20 mL syrup (50 brix)" --at 4C
  bloomset mix "20 g ethanol + 80 g water" --at -18C        below its freezing point: ice, and what stays liquid

Things are bought things of the larder (in brackets what the label says), or pure: water, ethanol, sucrose, glucose,
fructose, maltose, lactose, glycerol, citric acid, malic acid, … A volume is measured at 20 C.)help";

inline constexpr const char* chill_examples = R"help(Examples
  bloomset chill "60 mL spirit (40 %vol) + 25 mL syrup (50 brix)" --at 20C --ice 200g --ice-at 0C
  bloomset chill "100 g water" --ice 80g --ice-at -18C
  bloomset chill "90 mL spirit (40 %vol)" --ice 250g --by stir --for 30s --vessel-heat 45J/K
  bloomset chill "90 mL spirit (40 %vol)" --ice 250g --to 0C --surface-water 15g

Without --to and --for the drink stays on the ice until nothing changes any more.)help";

inline constexpr const char* dose_examples = R"help(Examples
  bloomset dose "730 g orange juice" --with "gelatin, gold leaf" --for "cold foam"
  bloomset dose "300 g orange juice + 40 g honey" --with "gelatin, powder (240 bloom)" --for "soft gel"
  bloomset dose "200 g lime juice + 100 g water" --with agar --for clarify
  bloomset dose "2 L tomato juice" --with methylcellulose --for "hot foam" --json
  bloomset dose "150 g lemon juice" --with lecithin --for froth --scale 0.01g      a finer scale

Effects: soft gel, firm gel, fluid gel, hot gel, cold foam, hot foam, froth, thickened, sphere, clarify. Without --for it is
the first that the agent is taken for. The dose is % of the base: all but agents, ice, blooming water and what is strained
out. Use levels hold to +-30 %: make a small trial first.)help";

inline constexpr const char* gelatin_examples = R"help(Examples
  bloomset gelatin "4 g" --from "gelatin, gold leaf" --to "gelatin, powder (225 bloom)"
  bloomset gelatin "3 leaves" --from "gelatin, bronze leaf" --to "gelatin, gold leaf"
  bloomset gelatin "3 leaves" --from "gelatin leaf (1.8 g a piece, 180 bloom)" --to "gelatin, powder"
  bloomset gelatin "7 g" --from "gelatin, powder" --to "gelatin, gold leaf (1.8 g a piece)" --json

Grades: gelatin, titanium leaf; bronze; silver; gold; platinum; gelatin, powder; fish gelatin. Grade names are no standard:
weigh ten leaves and read the Bloom off the packet, and give both in the bracket.)help";

inline constexpr const char* charge_examples = R"help(Examples
  bloomset charge --gas N2O --bottle 0.75L --liquid "450 g water" --charges 2 --charge-mass 8g --at 5C
  bloomset charge --bottle "siphon, half litre" --liquid "450 g cream" --charges 1
  bloomset charge --bottle 1.4L --fill-line 1L --max-charges 4 --liquid "900 g orange juice + 10 g agar" --charges 3 --at 55C
  bloomset charge --bottle 0.75L --liquid "375 g water" --charges 2 --max-charges 2 --pressure "20 bar"
  bloomset charge --gas CO2 --bottle 1.25L --liquid "1 L water" --charges 1 --purged --at 3C
  bloomset charge --gas CO2 --bottle "bottle, 1 L" --liquid "900 g water" --pressure "2 bar" --at 4C

--bottle is the gross volume: fill the bottle to the brim with water and weigh it. Or it names a siphon or bottle of the kit,
with its fill line and its maker's limits. --pressure is what a gauge shows: with --charges the pressure that the bottle is stated
for; for CO2 without --charges the pressure of the regulator. `3 bar abs` is absolute.)help";

inline constexpr const char* substitute_examples = R"help(Examples
  bloomset substitute demo/01-quay-sour.toml --agent "egg white"
  bloomset substitute demo/01-quay-sour.toml --agent "egg white" --for lecithin     that one only: offered, or refused and why
  bloomset substitute demo/01-quay-sour.toml --agent "egg white" --vegan
  bloomset substitute demo/01-quay-sour.toml --agent "egg white" --part sour --json

The effect is read off the acts of the part: charged is a cold foam (hot if it is held at 40 C or more), blitzed a fluid gel,
frothed a froth, and so on; else the gel or body whose usual dose is nearest.)help";

inline constexpr const char* scatter_examples = R"help(Examples
  bloomset scatter demo/01-quay-sour.toml
  bloomset scatter demo/08-harbour-light.toml --draws 100000          finer percentiles
  bloomset scatter demo/08-harbour-light.toml --seed 7 --json

Every number that can vary is drawn anew each time: fruit and bottles as the larder says, bands as the document writes them
(10-14 s is four standard deviations wide), scales, jiggers, ice and hands by common practice. A value measured and written in
the bracket, such as lime juice (6 % acid, pH 2.2), varies only as much as its instrument.)help";

inline constexpr const char* balance_examples = R"help(Examples
  bloomset balance demo/01-quay-sour.toml                   the document's own targets
  bloomset balance demo/01-quay-sour.toml --target "serve.abv 13 %" --target "serve.acidity 0.7 %"
  bloomset balance demo/08-harbour-light.toml --target "serve.sugar <= 7 %" --vary "'house syrup'"
  bloomset balance demo/01-quay-sour.toml --target "serve.abv 14 %" --vary "lemon juice" --exact --json
  bloomset balance demo/01-quay-sour.toml --target "serve.acidity 0.8 %" --vary "15-30 mL lemon juice"

The answer lies as near to the written amounts as the targets allow, and is rounded to what a jigger or a scale can do; --exact
leaves it unrounded. Leaves, pieces and dashes stay whole; an agent stays in the band of its usual dose. Other amounts stay between
a tenth of what is written and ten times it, unless bounds stand before the thing: --vary "0-50 mL lemon juice".)help";

inline constexpr const char* batch_examples = R"help(Examples
  bloomset batch demo/08-harbour-light.toml --part "'shaken cane'" --serves 40
  bloomset batch demo/02-bollard.toml --part stirred --serves 20 --bottle 700mL --hold freezer
  bloomset batch demo/02-bollard.toml --part stirred --serves 20 --json

The water equals the melt that the part takes up as it is shaken or stirred to order, so that poured cold it has the same
strength, sugar and acidity. A bottle that will freeze is filled to nine tenths.)help";

inline constexpr const char* ratio_examples = R"help(Examples
  bloomset ratio "2 : 1 : 0.75" "spirit (40 %vol)" "syrup (50 brix)" "lime juice"
  bloomset ratio "3:2:1" "cane spirit (40 %vol)" "orange liqueur" "lime juice" --total 90mL --target "abv 20 %"
  bloomset ratio "1 : 1" "dry vermouth" "sweet vermouth" --total 60mL --json

Parts are by volume, as poured. With --target water comes on top, as much as meets it: the melt that ice would have to give.)help";

inline constexpr const char* refit_examples = R"help(Examples
  bloomset refit demo/01-quay-sour.toml --swap "juniper spirit (43 %vol)=juniper spirit (47 %vol)"
  bloomset refit demo/01-quay-sour.toml --swap "'house syrup'=syrup (66 brix)" --swap "lemon juice=lemon juice (5 % acid)"
  bloomset refit demo/08-harbour-light.toml --swap "gelatin, gold leaf=gelatin, powder (225 bloom)"
  bloomset refit demo/08-harbour-light.toml --swap "siphon, half litre=siphon, one litre" --json

Strength, sugar, acidity and size of what the swap touches come back to within 2 % of the original; water is put in where the new
thing is stronger. Where not all can be had, the new thing brings what the old one was there for, the rest stays as it is, and the
exit code is 1. Gelatin is exchanged for equal firmness (leaf for leaf where both are counted); a part in another bottle fills it to
its line, with whole chargers nearest the same gas a litre.)help";

inline constexpr const char* open_examples = R"help(Examples
  bloomset open                                    prints its address, and opens it where there is a desktop
  bloomset open --port 8421 --shelf bar.shelf
  bloomset open --lan                              tablets in the kitchen too: prints addresses and a pairing code

The first start makes the shelf and puts the demo on it. The page computes and stores on this machine only; without --lan nothing
but this machine can reach it. Ctrl-C ends it; what the page has saved is on the disk.)help";

inline constexpr const char* shelf_examples = R"help(Examples
  bloomset shelf import my-recipes                 every my-recipes/KIND/NAME.toml, such as formula/Low Tide Sour.toml
  bloomset shelf check
  bloomset shelf export my-recipes-today           plain files: to read, to keep, to give away
  bloomset shelf backup friday.shelf --shelf bar.shelf

Every text that was saved is kept: an import makes a new revision of what differs and overwrites nothing. Copy a shelf with backup,
not by copying its file: part of it may still stand in the file beside it.)help";

}  // namespace bloomset::cli
