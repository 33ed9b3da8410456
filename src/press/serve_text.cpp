#include "press/serve_text.hpp"

#include <algorithm>
#include <cmath>

#include "press/figure.hpp"
#include "press/property_text.hpp"
#include "press/step_words.hpp"
#include "press/work_text.hpp"

namespace bloomset::press {
namespace {

using matter::Property;
constexpr std::size_t indent = 4;
constexpr std::string_view blank = "    ";

const std::string serve_place = "serve";
// What a guest asks stands with the guest's facts, not in the middle of the work.
bool for_the_guest(const base::Finding& f) {
  return f.code == base::Code::alcohol || f.code == base::Code::allergen || f.code == base::Code::allergen_unknown || f.code == base::Code::choking ||
         f.code == base::Code::defer;
}
bool of_serve(const base::Finding& f) { return f.where.part == serve_place && !for_the_guest(f); }

std::string merged_words(const sheet::ServeSheet& serve) {
  const matter::Values& m = serve.merged;
  return "With all foam collapsed: " + figure(m, Property::volume_ml) + ", " + figure(m, Property::abv_percent) + ", sugar " +
         figure(m, Property::sugar_percent) + ".";
}

// In the unit that the target is written in, unscaled, so that the two can be compared at a glance.
std::string found_value(const sheet::TargetLine& target) {
  const double value = target.value_as_written;
  std::string out = figure(value, std::fabs(value) < 1000.0 && target.unit == "g/mL" ? Digits::three : Digits::amount);
  if (!std::isfinite(value) || target.unit.empty()) return out;
  return out + "\u00A0" + (target.unit == "C" || target.unit == "F" ? "°" : "") + target.unit;
}

// Two, five, ten and twenty minutes on: what the guest has who talks.
void print_over_time(Page& page, const std::vector<sheet::GlassAt>& over_time) {
  if (over_time.empty()) return;
  page.gap();
  page.line(std::string(blank) + left("later", 10) + right("drink", 12) + right("at", 10) + right("strength", 12) + right("ice", 10) + right("foam", 12));
  for (const sheet::GlassAt& at : over_time)
    page.line(std::string(blank) + left(figure(at.minute, Digits::amount) + " min", 10) + right(figure(at.values, Property::volume_ml), 12) +
              right(figure(at.values, Property::temperature_c), 10) + right(figure(at.values, Property::abv_percent), 12) +
              right(figure(at.values, Property::ice_g), 10) + right(figure(at.values, Property::foam_volume_ml), 12));
}

void print_order(Page& page, const std::vector<sheet::OrderLine>& order, int serves) {
  if (order.empty()) return;
  page.gap();
  page.heading("To have at hand", "for " + std::to_string(serves) + (serves == 1 ? " serve" : " serves"));
  for (const sheet::OrderLine& line : order) {
    std::string second = std::isnan(line.volume_ml) ? std::string() : figure(line.volume_ml, Digits::amount, "mL");
    if (line.pieces && second.empty()) second = figure(std::ceil(*line.pieces - 1e-9), Digits::whole, "pc");
    std::string note = clean(line.note);
    if (line.cost) note += (note.empty() ? "" : "; ") + figure(*line.cost, Digits::two, line.currency);
    const std::string lead =
        std::string(blank) + left(cut(clean(line.thing), 29), 30) + right(figure(line.mass_g, Digits::amount, "g"), 10) + right(second, 10) + "  ";
    page.paragraph(lead, note);
  }
}

// Rounds, ice and bottles, in one paragraph behind the order.
void print_service(Page& page, const sheet::Service& service, int serves) {
  std::string words = "For " + std::to_string(serves) + (serves == 1 ? " guest: " : " guests: ");
  if (service.rounds > 0)
    words += std::to_string(service.rounds) + (service.rounds == 1 ? " round, " : " rounds, ") + duration(service.seconds) + " at the tin; ";
  if (service.ice_in_tins_g > 0.0) words += figure(service.ice_in_tins_g, Digits::amount, "g") + " of ice in tins; ";
  if (service.ice_in_glasses_g > 0.0) words += figure(service.ice_in_glasses_g, Digits::amount, "g") + " of ice in glasses; ";
  for (const sheet::Service::Bottles& of : service.bottles)
    words += std::to_string(of.bottles) + " × " + clean(of.vessel) + " of '" + clean(of.part) + "', " + std::to_string(of.charges) +
             (of.charges == 1 ? " charge; " : " charges; ");
  if (!words.ends_with("; ")) return;
  words.erase(words.size() - 2);
  page.paragraph(blank, words + ".");
}

std::string allergen_words(const std::vector<std::string>& codes) {
  std::vector<std::string> there, ask;
  for (std::string code : codes) {
    std::replace(code.begin(), code.end(), '_', ' ');
    if (code.starts_with('?'))
      ask.push_back(code.substr(1));
    else
      there.push_back(code);
  }
  std::string out = there.empty() ? "none known from the larder" : listed(there);
  if (!ask.empty()) out += "; ask the maker about " + listed(ask);
  return out + ".";
}

void fact(Page& page, std::string_view label, const std::string& words) { page.paragraph(std::string(blank) + left(label, 18), words); }

}  // namespace

void print_serve(Page& page, FindingDesk& desk, const sheet::ServeSheet& serve, const formula::Serve& written, text::Measures measures) {
  page.gap();
  page.heading("In the glass", serve.vessel);
  print_takes(page, desk, serve_place, serve.takes);
  print_ratio(page, serve.ratio);
  page.gap();
  print_steps(page, desk, serve_place, serve.steps, written.pours, {.amounts = true, .measures = measures});
  page.gap();
  print_losses(page, serve.losses);
  page.gap();
  page.line(std::string(blank) + "At service, half a minute after the last pour");
  print_properties(page, indent, serve.at_service);
  if (serve.at_service[Property::foam_volume_ml] > 0.0) page.paragraph(blank, merged_words(serve));
  std::string room = "Filled to the brim the " + clean(serve.vessel) + " holds " + figure(serve.brim_ml, Digits::amount, "mL") + "; ";
  room += serve.headroom_ml >= 0.0 ? figure(serve.headroom_ml, Digits::amount, "mL") + " of room is left."
                                   : figure(-serve.headroom_ml, Digits::amount, "mL") + " too much goes in.";
  const double on_glass_g = serve.beside_g - serve.solids_g;
  if (on_glass_g > 0.005) room += " On the glass lies " + figure(on_glass_g, Digits::amount, "g") + " of rim and garnish.";
  if (serve.solids_g > 0.005) room += " In the drink lies " + figure(serve.solids_g, Digits::amount, "g") + " of solids, which the room counts.";
  if (serve.beside_g > 0.005) room += " The drink's own figures leave this out.";
  page.gap();
  page.paragraph(blank, room);
  print_over_time(page, serve.over_time);
  desk.say(page, indent, of_serve);
}

void print_target(Page& page, const sheet::TargetLine& target) {
  std::string found = found_value(target);
  if (target.until_minute) found += ", until minute\u00A0" + figure(*target.until_minute, Digits::whole);
  page.line(std::string(blank) + left(target.met ? "met" : "MISSED", 8) + left(cut(clean(target.target), 42), 44) + found);
}

void print_targets(Page& page, const std::vector<sheet::TargetLine>& targets) {
  if (targets.empty()) return;
  page.gap();
  page.heading("Targets");
  for (const sheet::TargetLine& target : targets) print_target(page, target);
}

void print_foot(Page& page, FindingDesk& desk, const sheet::Sheet& sheet) {
  print_order(page, sheet.order, sheet.serves);
  if (sheet.service) print_service(page, *sheet.service, sheet.serves);
  if (sheet.serve) {
    const sheet::ServeSheet& serve = *sheet.serve;
    page.gap();
    page.heading("For the guest", "a serve");
    if (serve.at_service[Property::ethanol_g] > 0.0) {
      const sheet::StandardDrinks& d = serve.standard_drinks;
      fact(page, "Standard drinks",
           "US " + figure(d.us, Digits::one) + ", UK " + figure(d.uk, Digits::one) + " units, Australia " + figure(d.au, Digits::one) + ", EU " +
               figure(d.eu, Digits::one) + ".");
    }
    fact(page, "Energy", figure(serve.at_service, Property::energy_kcal) + ".");
    fact(page, "Allergens", allergen_words(serve.allergens));
    if (serve.cost) fact(page, "Cost", figure(*serve.cost, Digits::two, serve.currency) + " a serve.");
    desk.say(page, indent, for_the_guest);
  }
  if (desk.waiting() > 0) {
    page.gap();
    page.heading("To know");
    desk.say(page, indent, [](const base::Finding&) { return true; });
  }
  page.gap();
  page.heading("Balance");
  const sheet::Balance& b = sheet.balance;
  const double open = b.in_g - b.served_g - b.stays_g - b.lost_g - b.gas_g;
  page.paragraph(blank, figure(b.in_g, Digits::one, "g") + " in = " + figure(b.served_g, Digits::one, "g") + " served + " +
                            figure(b.stays_g, Digits::one, "g") + " stays + " + figure(b.lost_g, Digits::one, "g") + " lost + " +
                            figure(b.gas_g, Digits::one, "g") + " gas; open " + figure(open, Digits::two, "g") + ".");
  if (!sheet.digest.empty()) page.line(std::string(blank) + "digest " + sheet.digest);
}

}  // namespace bloomset::press
