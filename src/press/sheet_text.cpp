#include "press/figure.hpp"
#include "press/finding_text.hpp"
#include "press/part_text.hpp"
#include "press/press.hpp"
#include "press/scatter_text.hpp"
#include "press/serve_text.hpp"

namespace bloomset::press {
namespace {

using matter::Property;

constexpr double least_told = 0.05;  // percent of sugar or acid below which nobody tastes it: practice

// What a cook asks first: how much, how strong, how cold, how sweet and sour, does it fit.
std::string in_short(const sheet::ServeSheet& serve) {
  const matter::Values& v = serve.at_service;
  std::string out = figure(v, Property::volume_ml) + " at " + figure(v, Property::temperature_c);
  if (v[Property::ethanol_g] > 0.0) out += " · " + figure(v, Property::abv_percent);
  if (v[Property::ice_g] > 0.5) out += " · ice " + figure(v, Property::ice_g);
  const double acid = v[Property::titratable_acidity_g_100g_citric];
  if (v[Property::sugar_percent] >= least_told) out += " · sugar " + figure(v[Property::sugar_percent], Digits::percent, "%");
  if (acid >= least_told) out += " · acid " + figure(acid, Digits::two, "%") + " · pH\u00A0" + figure(v, Property::ph_25c);
  return out;
}

std::string serves_words(const sheet::Sheet& sheet) {
  std::string out = std::to_string(sheet.serves) + (sheet.serves == 1 ? " serve" : " serves");
  if (sheet.serve) out += " · " + clean(sheet.serve->vessel);
  return out;
}

}  // namespace

std::string sheet_text(const sheet::Sheet& sheet, const formula::Formula& formula, const Whiskers& whiskers) {
  Page page;
  FindingDesk desk(sheet.findings);
  desk.told([](const base::Finding& f) { return f.code == base::Code::target_unmet; });  // the list of targets says it
  page.paragraph("", clean(sheet.title));
  page.paragraph("", serves_words(sheet));
  if (sheet.serve) page.paragraph("", in_short(*sheet.serve));
  for (std::size_t i = 0; i < sheet.parts.size() && i < formula.parts.size(); ++i)
    print_part(page, desk, sheet.parts[i], formula.parts[i], formula.measures, sheet.serves);
  if (sheet.serve && formula.serve) print_serve(page, desk, *sheet.serve, *formula.serve, formula.measures);
  print_spreads(page, whiskers);
  print_targets(page, sheet.targets);
  print_foot(page, desk, sheet);
  return page.take();
}

}  // namespace bloomset::press
