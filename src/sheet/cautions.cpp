// sheet/cautions.cpp - cautions that are raised only where they apply: a torch by a bottle under gas, pieces that choke, bottles that ferment, what guests are
// told.
//
// Torch: lit in a part or in the serve while a bottle of that part, or of a part it draws from, is under gas. Choking: a gel that is cut or dropped as spheres
// no larger than the published cylinder for small parts. Fermenting: sugar, kept for days above the fridge in a closed bottle, too weak and too thin to
// stop yeast. Caffeine and quinine: by what a thing of the larder is (data/sheet/notices.csv). Limits stand beside their source.
#include <algorithm>

#include "sheet/readings.hpp"
#include "text/table.hpp"

namespace bloomset::sheet {

std::string_view embedded(std::string_view path);

namespace {

using base::Code;
using formula::Act;
using matter::Property;

constexpr double small_part_m = 0.0317;  // memory: 16 CFR 1501.4, the cylinder that small parts must not fit into
constexpr double ferments_from_percent = 2.0, ferments_above_c = 8.0, ferments_from_s = 2.0 * 86400.0;  // sugar, cold and time enough: practice
constexpr double yeast_to_percent = 15.0, yeast_from_aw = 0.88;  // memory: food-microbiology handbooks, what yeasts of drinks bear

std::string quoted(const std::string& name) { return "'" + name + "'"; }

class Cautions {
 public:
  Cautions(const Kitchen& k, const Sheet& sheet, std::vector<base::Finding>& findings) : k_(k), sheet_(sheet), findings_(findings) {}

  void apply() {
    for (const flow::StepInfo& step : k_.flow.steps) {
      if (!k_.book.parts[step.origin.part].in_use) continue;
      if (step.act == Act::torch) torch(step);
      if (step.act == Act::cut || step.act == Act::sphere) pieces(step);
    }
    for (std::size_t p = 0; p < sheet_.parts.size(); ++p)
      if (k_.book.parts[p].in_use && is_bottled(p)) ferments(p);
    guests();
  }

 private:
  // Bottles under gas of a part, from a step on, and of all it draws from.
  void bottles_of(std::size_t part, std::uint16_t before_step, std::vector<std::string>& names) const {
    const flow::PartInfo& info = k_.flow.parts[part];
    const bool charged = (info.charge && info.charge->origin.step < before_step) || (info.fizz && info.fizz->origin.step < before_step);
    if (charged && std::find(names.begin(), names.end(), quoted(info.name)) == names.end()) names.push_back(quoted(info.name));
    for (const flow::DrawInfo& draw : k_.flow.draws)
      if (draw.by == part) bottles_of(draw.from, last_step, names);
  }
  static constexpr std::uint16_t last_step = 0xFFFF;

  void torch(const flow::StepInfo& step) {
    std::vector<std::string> names;
    bottles_of(step.origin.part, step.origin.step, names);
    if (names.empty()) return;
    findings_.push_back(
        say(Code::torch_near_bottle, where(k_.flow, step.origin, step.span), "a torch is lit where the bottle of " + listed(names) + " is under gas"));
  }

  void pieces(const flow::StepInfo& step) {
    const flow::PartInfo& part = k_.flow.parts[step.origin.part];
    if (part.liquid == flow::no_port || (step.size_m && step.size_m->high > small_part_m)) return;
    for (const flow::StepInfo& later : k_.flow.steps)
      if (later.origin.part == step.origin.part && later.origin.step > step.origin.step && (later.act == Act::blitz || later.act == Act::warm)) return;
    bool gel = step.act == Act::sphere;
    for (std::size_t a = 0; a < texture::agent_count; ++a) gel = gel || could_gel(static_cast<texture::Agent>(a), k_.batch.port(part.liquid).mass);
    if (!gel) return;
    std::string about = "pieces of " + quoted(part.name);
    if (step.size_m) about += ", " + shown(step.size_m->high * 1e3) + " mm,";
    base::Finding& said = findings_.emplace_back(
        say(Code::choking, where(k_.flow, step.origin, step.span), about + " fit into the published cylinder for small parts, 31.7 mm wide"));
    said.weight = base::Weight::note;
    said.source = "memory: 16 CFR 1501.4, small parts";
  }

  bool is_bottled(std::size_t part) const {
    if (k_.flow.parts[part].charge || k_.flow.parts[part].fizz) return true;
    for (const formula::Step& step : k_.in.formula.parts[part].steps) {
      const kit::Vessel* vessel = step.vessel ? k_.in.kit.vessel(step.vessel->text) : nullptr;
      if (vessel != nullptr && (vessel->kind == kit::VesselKind::bottle || vessel->kind == kit::VesselKind::siphon)) return true;
    }
    return false;
  }
  void ferments(std::size_t part) {
    const PartSheet& sheet = sheet_.parts[part];
    double kept_s = 0.0;
    for (const flow::StepInfo& step : k_.flow.steps)
      if (step.origin.part == part) kept_s = std::max({kept_s, step.keeps_s ? step.keeps_s->high : 0.0, step.act == Act::rest ? step.seconds : 0.0});
    const bool feeds = sheet.values[Property::sugar_percent] >= ferments_from_percent && sheet.values[Property::water_activity] >= yeast_from_aw &&
                       sheet.values[Property::abv_percent_all_melted] < yeast_to_percent;
    const double held_c = sheet.values[Property::temperature_c];
    if (!feeds || !(held_c > ferments_above_c) || kept_s < ferments_from_s) return;
    base::Where at;
    at.part = sheet.name;
    at.span = k_.flow.parts[part].span;
    findings_.push_back(because("yeast makes carbon dioxide of sugar, and a closed bottle holds it until it bursts",
                                say(Code::gas_caution, at,
                                    quoted(sheet.name) + " holds " + shown(sheet.values[Property::sugar_percent]) + " % sugar and stands " +
                                        shown(kept_s / 86400.0) + " days at " + shown(held_c) + " C in a closed bottle: it may ferment")));
    findings_.back().remedies.push_back({"keep it in the fridge, and open the bottle now and then", std::nullopt});
  }

  void guests() {
    for (const auto& row : text::table_rows(embedded("sheet/notices.csv"))) {
      const std::string things = ";" + row[1] + ";";
      std::vector<std::string> names;
      for (const flow::TakeInfo& take : k_.flow.takes) {
        if (!take.thing || !k_.book.parts[take.origin.part].in_use || things.find(";" + k_.flow.things[*take.thing].name + ";") == std::string::npos) continue;
        if (std::find(names.begin(), names.end(), take.label) == names.end()) names.push_back(take.label);
      }
      if (names.empty()) continue;
      base::Where at;
      if (k_.flow.has_serve) at.part = k_.flow.parts.back().name;
      base::Finding& said = findings_.emplace_back(say(Code::guest_notice, at, row[0] + ": " + listed(names)));
      said.why = row[2];
      said.source = row[3];
    }
  }

  const Kitchen& k_;
  const Sheet& sheet_;
  std::vector<base::Finding>& findings_;
};

}  // namespace

void cautions(const Kitchen& k, const Sheet& sheet, std::vector<base::Finding>& findings) { Cautions(k, sheet, findings).apply(); }

}  // namespace bloomset::sheet
