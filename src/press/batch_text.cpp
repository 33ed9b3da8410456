// press/batch_text.cpp - `batch` and `ratio`: a bottled batch, and a drink told in parts, as text and as JSON.
#include <cmath>

#include "press/figure.hpp"
#include "press/json.hpp"
#include "press/mixture_text.hpp"
#include "press/press.hpp"
#include "press/property_text.hpp"
#include "press/work_text.hpp"

namespace bloomset::press {
namespace {

using text::Json;

Json values_json(const matter::Values& values) {
  Json out = Json::object();
  set_properties(out, values);
  return out;
}

Json amount_json(const std::string& thing, double mass_g, double volume_ml) {
  Json out = Json::object();
  out.set("thing", thing).set("mass_g", mass_g).set("volume_ml", volume_ml);
  return out;
}

void print_amount(Page& page, const std::string& thing, double mass_g, double volume_ml) {
  page.line("    " + left(cut(clean(thing), 40), 42) + right(figure(mass_g, Digits::amount, "g"), 12) +
            right(std::isnan(volume_ml) ? std::string() : figure(volume_ml, Digits::amount, "mL"), 12));
}

std::vector<base::Finding> weighty(const std::vector<base::Finding>& findings) {
  std::vector<base::Finding> out;
  for (const base::Finding& finding : findings)
    if (finding.weight != base::Weight::note || finding.code == base::Code::assumption) out.push_back(finding);
  return out;
}

}  // namespace

std::string batch_text(const sheet::BatchSheet& batch) {
  Page page;
  page.heading(clean(batch.title), "'" + clean(batch.part) + "' bottled for " + std::to_string(batch.serves));
  for (const sheet::BatchSheet::Line& line : batch.amounts) print_amount(page, line.thing, line.mass_g, line.volume_ml);
  page.gap();
  const std::string bottles =
      std::to_string(batch.bottles) + (batch.bottles == 1 ? " bottle of " : " bottles of ") + figure(batch.bottle_ml, Digits::amount, "mL");
  page.paragraph("    ", "The water stands for the ice that would have melted: " + figure(batch.water_per_serve_g, Digits::amount, "g") + " a serve. " +
                             figure(batch.volume_20c_ml, Digits::amount, "mL") + " in all: " + bottles + ". Pour " + figure(batch.pour_g, Digits::amount, "g") +
                             " (" + figure(batch.pour_ml, Digits::amount, "mL") + ") a serve.");
  std::string cold = "It begins to freeze at " + temperature(batch.first_ice_c) + "; in the " + clean(batch.place) + " at " + temperature(batch.place_c) + " ";
  cold += batch.ice_share > 0.0 ? figure(100.0 * batch.ice_share, Digits::whole, "%") + " of its mass is ice." : "it stays liquid.";
  page.paragraph("    ", cold);
  page.gap();
  page.line("    From the ice, and from the bottle at " + temperature(20.0));
  print_before_after(page, 4, batch.to_order, batch.bottled);
  print_findings(page, weighty(batch.findings));
  page.gap();
  page.heading("The document with this batch");
  return page.take() + batch.formula;
}

std::string batch_json(const sheet::BatchSheet& batch, const base::Sources& sources) {
  Json out = document(), place = Json::object();
  out.set("part", batch.part).set("serves", batch.serves);
  out.set("amounts", Json::array_of(batch.amounts, [](const auto& line) { return amount_json(line.thing, line.mass_g, line.volume_ml); }));
  out.set("water_per_serve_g", batch.water_per_serve_g).set("pour_g", batch.pour_g).set("pour_ml", batch.pour_ml).set("spare_g", batch.spare_g);
  out.set("bottles", batch.bottles).set("bottle_ml", batch.bottle_ml).set("volume_20c_ml", batch.volume_20c_ml).set("first_ice_c", batch.first_ice_c);
  place.set("place", batch.place).set("temperature_c", batch.place_c).set("ice_percent", 100.0 * batch.ice_share);
  out.set("hold", std::move(place)).set("to_order", values_json(batch.to_order)).set("bottled", values_json(batch.bottled));
  out.set("formula", batch.formula).set("findings", findings_json(batch.findings, sources));
  return printed(out);
}

std::string ratio_text(const solve::ProportionSheet& ratio) {
  Page page;
  page.heading("Ratio", ratio.met ? "" : "the target cannot be met");
  for (const sheet::TakeLine& take : ratio.drink.takes) print_amount(page, take.thing, take.mass_g, take.volume_ml);
  print_ratio(page, ratio.drink.ratio);
  for (const solve::WishLine& wish : ratio.targets)
    page.paragraph(wish.target.met ? "    met      " : "    not met  ",
                   clean(wish.target.target) + ": " + figure(wish.target.value_as_written, Digits::two, wish.target.unit) + ".");
  page.gap();
  print_properties(page, 4, ratio.drink.values);
  page.gap();
  page.heading("As a document");
  return page.take() + ratio.formula;
}

std::string ratio_json(const solve::ProportionSheet& ratio, const base::Sources& sources) {
  Json out = document();
  set_properties(out, ratio.drink.values);
  out.set("met", ratio.met).set("amounts", Json::array_of(ratio.drink.takes, [](const auto& take) {
                                  return amount_json(take.thing, take.mass_g, take.volume_ml);
                                }));
  out.set("targets", Json::array_of(ratio.targets, [](const solve::WishLine& wish) { return target_json(wish.target); }));
  out.set("formula", ratio.formula).set("findings", findings_json(ratio.findings, sources));
  return printed(out);
}

}  // namespace bloomset::press
