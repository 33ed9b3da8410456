// sheet/readings.hpp - the pieces that sheet.cpp puts together; one function a question. Private to sheet.
#pragma once

#include <set>
#include <span>
#include <string>
#include <vector>

#include "sheet/ledger.hpp"
#include "sheet/sheet.hpp"
#include "texture/set.hpp"

namespace bloomset::sheet {

/// Everything that is known once the flowsheet has run.
struct Kitchen {
  const Inputs& in;
  const flow::Flowsheet& flow;
  const flow::Batch<1>& batch;
  const Ledger& book;
  bool is_serve(std::size_t part) const { return flow.has_serve && part + 1 == flow.parts.size(); }
};

/// Properties at a point of the flow; nothing can be given where nothing liquid is there.
matter::Values values_at(const Kitchen&, flow::Port liquid, flow::Port ice);
/// Of them only those asked for; the others cannot be given.
matter::Values values_at(const Kitchen&, flow::Port liquid, flow::Port ice, const matter::PropertySet& asked);

// parts.cpp
/// Things one pours, so that a volume of them says something.
bool is_poured(larder::Family);
std::vector<PartSheet> part_sheets(const Kitchen&);
/// Lines of one part, or of the serve, by its index in the flowsheet.
std::vector<TakeLine> take_lines(const Kitchen&, std::size_t part);
std::vector<LossLine> loss_lines(const Kitchen&, std::size_t part);
std::vector<StepLine> step_lines(const Kitchen&, std::size_t part);
/// Hours from the first step of the slowest thing it is made of to its own last, for every part and the serve.
std::vector<double> ready_after_h(const Kitchen&);

// serve.cpp
ServeSheet serve_sheet(const Kitchen&);
/// brim - liquid - foam - what the ice displaces - solids that lie in it [mL], at the fullest moment; NaN without a glass.
double headroom_ml(const Kitchen&);
/// Allergen codes of all that comes into the serve, `maybe` takes included; sorted. A sure code drops its own question.
std::vector<std::string> allergens(const Kitchen&);

// order.cpp
std::vector<OrderLine> order_list(const Kitchen&);
/// What one serve's share of everything costs, losses included and left-overs not; nothing where a price is missing, whose things are named.
struct Cost {
  std::optional<double> per_serve;
  std::string currency;
  std::vector<std::string> without_price;
  bool mixed_currencies = false;
};
Cost cost_of_serve(const Kitchen&);

// service.cpp
Service service_of(const Kitchen&);

// streams.cpp
std::vector<Ribbon> ribbons(const Kitchen&);

// targets.cpp
/// The property whose wire name it is; nothing for keys that are no property of matter.
std::optional<matter::Property> property_of(std::string_view key);
/// What a target speaks of, some minutes after service; NaN: cannot be given.
double value_of(const Sheet&, const formula::Target&, double minute);
std::vector<TargetLine> judge_targets(const Kitchen&, const Sheet&, std::vector<base::Finding>&);

// rules.cpp
/// Findings read off the sheet: left over, short, glass, safety, allergens, alcohol.
void apply_rules(const Kitchen&, const Sheet&, std::vector<base::Finding>&);
/// A part that waits: it says how long it keeps, or ends in the cold.
bool is_stored(const Kitchen&, std::size_t part);

// siphon.cpp
SiphonLine siphon_line(const Kitchen&, std::size_t part, const PartSheet&);
void bottle_rules(const Kitchen&, const Sheet&, std::vector<base::Finding>&);

// set_question.cpp
/// Whether what is in a part sets, as texture is asked (texture/set.hpp): its finished liquid, what its agents have been through, where it rests.
struct SetQuestion {
  texture::GelState state;         // `wanted` is nothing where no act shows what the agents are for
  const flow::StepInfo* asked_at;  // the step that answers for it: the last but unmoulding and cutting
  const flow::StepInfo* hottest;   // since its first agent went in
};
/// Nothing where no agent was taken into the part itself, or where a raft has kept it back.
std::optional<SetQuestion> set_question(const Kitchen&, std::size_t part);
/// The agents taken into a part, in written order, with their dose and what the answer to its question says of each.
std::vector<AgentLine> agent_lines(const Kitchen&, std::size_t part);

// set_remedies.cpp
/// The first remedy of a cause that keeps a part from setting becomes a change of the text, where one is sure to read back and to mend it.
void mend_the_text(const Kitchen&, std::size_t part, const SetQuestion&, const texture::Cause&, base::Finding&);

// setting.cpp
void setting_rules(const Kitchen&, std::vector<base::Finding>&);
/// Fruit whose protease is still alive in a part after a step (0: at its end), with what came through other parts.
std::vector<std::string> live_enzymes(const Kitchen&, std::size_t part, std::uint16_t after_step = 0);
/// What a part's acts show that its agents are for: charged a foam, set a gel, blitzed a fluid gel, frothed a froth; nothing where none says so.
std::optional<texture::Effect> effect_of_acts(const Kitchen&, std::size_t part);

// parting.cpp
/// Whether spheres form in their bath, and what is to be clarified curdles or makes a raft.
void parting_rules(const Kitchen&, std::vector<base::Finding>&);

// cooling.cpp
/// As written; what is chilled, frozen, rested or set and left open takes as long as the batch takes to come to its place.
double step_seconds(const Kitchen&, const flow::StepInfo&);
/// How warm a batch still is when such a step is over, where it cools quickest [C]. Nothing where the step does not cool.
std::optional<double> celsius_at_best(const Kitchen&, const flow::StepInfo&);
/// Steps whose cold or whose time does not do what they say, and the published times of cooling.
void cooling_rules(const Kitchen&, const Sheet&, std::vector<base::Finding>&);
/// Whether the published tables of pH and water activity ask for control of time and temperature of a finished part; they do not know spirit.
bool calls_for_control(const PartSheet&);

// out_of_cold.cpp
/// Steps that leave such food out of the cold for longer than the published clocks.
void out_of_cold_rules(const Kitchen&, const Sheet&, std::vector<base::Finding>&);

// cautions.cpp
/// What is said only where it applies: torch and bottle, choking, fermenting, caffeine and quinine.
void cautions(const Kitchen&, const Sheet&, std::vector<base::Finding>&);

// meeting.cpp
/// Where liquids meet: strings of an agent, curd, layers that do not lie.
void meeting_rules(const Kitchen&, std::vector<base::Finding>&);
/// Whether there is enough of an agent that sets in the cold for a gel, and not just a trace of it.
bool could_gel(texture::Agent, const matter::Composition&);
/// Protein of milk in every port [kg], by the dairy it came in and the same share of all protein in each stream of a unit.
std::vector<double> milk_protein_kg(const Kitchen&);

// range_words.cpp
/// What a bit of matter::range_notes says, and the property it speaks of; one row a bit.
struct RangeWords {
  const char* says;
  const char* property;
  const char* why;
};
std::span<const RangeWords> range_words();

// findings.cpp
/// Words of a code, with `{about}`, `{value}` and `{limit}` filled in.
base::Finding say(base::Code, base::Where, const std::string& about, double value = 0.0, double limit = 0.0);
/// The finding with a cause of its own in place of the table's: a code may have several.
base::Finding because(const char* why, base::Finding);
/// A property in words: `water activity`, where the key is `water_activity`.
std::string_view label(matter::Property);
base::Where where(const flow::Flowsheet&, const flow::Origin&, base::Span);
/// One finding a code, place and saying: the same thing said of several places is said once, of the first. Heavy ones first, then by code;
/// the causes of one set stay in their own order.
void tidy(std::vector<base::Finding>&);
/// `a, b and c`.
std::string listed(const std::vector<std::string>&);
/// A number for a sentence: three digits, or whole above 100.
std::string shown(double);

}  // namespace bloomset::sheet
