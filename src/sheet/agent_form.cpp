#include "sheet/agent_form.hpp"

#include <algorithm>
#include <array>

#include "flow/compile.hpp"
#include "formula/formula.hpp"
#include "sheet/readings.hpp"
#include "text/fold.hpp"
#include "texture/catalogue.hpp"

namespace bloomset::sheet {
namespace {

using matter::Component;
using texture::Agent;

constexpr const char* any_gelatin = "gelatin, powder";
constexpr const char* any_leaf = "gelatin, gold leaf";

// What says that it is a leaf, and not which.
bool is_bare_leaf(std::string_view name) {
  static constexpr std::array<std::string_view, 8> bare = {"gelatin leaf",   "leaf gelatin",  "gelatin leaves", "gelatin sheet",
                                                           "gelatin sheets", "sheet gelatin", "gelatin, leaf",  "gelatin, sheet"};
  const std::string folded = text::fold(name);
  return std::any_of(bare.begin(), bare.end(), [&](std::string_view word) { return text::fold(word) == folded; });
}

const formula::Qualifier* said(const formula::Take& take, std::string_view name) {
  const auto found = std::find_if(take.qualifiers.begin(), take.qualifiers.end(), [&](const formula::Qualifier& q) { return q.name == name; });
  return found == take.qualifiers.end() ? nullptr : &*found;
}

std::string span_words(double low, double high, const char* unit) { return shown(low) + " to " + shown(high) + " " + unit; }

void assume(AgentForm& out, const formula::Take& take) {
  const texture::GelatinForm* sold = texture::gelatin_form(out.thing.name);
  if (sold == nullptr) return;
  if (said(take, "bloom") == nullptr) {
    std::string words = out.thing.name + " has " + shown(out.form.bloom) + " Bloom";
    if (sold->bloom_high > sold->bloom_low) words += " (it is sold with " + span_words(sold->bloom_low, sold->bloom_high, "Bloom") + ")";
    out.assumptions.push_back(std::move(words));
  }
  if (out.form.leaf && said(take, "g a piece") == nullptr) {
    std::string words = out.thing.name + ": a leaf weighs " + shown(units::in_grams(*out.form.leaf)) + " g";
    if (sold->leaf_low && sold->leaf_high && *sold->leaf_high > *sold->leaf_low)
      words += " (makers cast " + span_words(units::in_grams(*sold->leaf_low), units::in_grams(*sold->leaf_high), "g") + "): weigh ten";
    out.assumptions.push_back(std::move(words));
  }
}

base::Result<AgentForm> no_agent(base::Span span, const std::string& name) {
  const std::string near = base::nearest(name, agent_names());
  return base::fail(base::ErrorKind::bad_input, "no agent was named",
                    {{base::Severity::error, "unknown_agent", "\"" + name + "\" is no texture agent that is known", span, std::nullopt,
                      near.empty() ? "for instance `agar`, `gelatin, gold leaf` or `methylcellulose`" : "did you mean `" + near + "`?"}});
}

}  // namespace

std::optional<Agent> agent_of(const larder::Thing& thing) {
  if (const auto named = texture::agent_named(thing.name)) return named;
  for (std::size_t i = matter::index(matter::first_agent); i <= matter::index(matter::last_agent); ++i)
    if (thing.per_kg.kg[i] > 0.5) return texture::agent_of(static_cast<Component>(i));
  return std::nullopt;
}

texture::Form form_of(const larder::Thing& thing, Agent agent) {
  texture::Form form;
  form.agent = agent;
  if (!texture::is_gelatin(agent)) return form;
  form.bloom = thing.bloom.value_or(form.bloom);
  form.leaf = thing.piece;
  return form;
}

std::vector<std::string> agent_names() {
  std::vector<std::string> names;
  for (const texture::GelatinForm& form : texture::gelatin_forms()) names.emplace_back(form.name);
  for (std::size_t i = 0; i < texture::agent_count; ++i) names.emplace_back(texture::info(static_cast<Agent>(i)).name);
  return names;
}

base::Result<AgentForm> read_agent(std::uint32_t source, const base::Sources& sources, const larder::Larder& larder) {
  const std::string_view written = sources.text(source);
  const base::Span span{source, 1, 1, static_cast<std::uint32_t>(written.size())};
  if (written.find_first_not_of(' ') == std::string_view::npos) return no_agent(span, std::string(written));
  text::Faults faults;
  const auto take = formula::read_thing(written, span, faults);
  if (!take) return base::fail(base::ErrorKind::bad_input, "the agent cannot be read", std::move(faults));

  const bool bare_leaf = is_bare_leaf(take->thing);
  const std::string name = bare_leaf ? any_leaf : take->thing;
  auto thing = larder.resolve(name, flow::bracket_of(*take), take->thing_span);
  if (!thing && thing.error().kind == base::ErrorKind::not_found) return no_agent(take->thing_span, name);
  if (!thing) return tl::unexpected<base::Error>(std::move(thing.error()));
  const auto agent = agent_of(*thing);
  if (!agent) return no_agent(take->thing_span, name);

  AgentForm out;
  out.form = form_of(*thing, *agent);
  out.label = bare_leaf ? std::string(written) : thing->label;
  out.thing = std::move(*thing);
  const bool only_gelatin = text::fold(take->thing) == text::fold("gelatin");
  const bool bloom_said = said(*take, "bloom") != nullptr;
  if (bare_leaf) out.grade_known = bloom_said && said(*take, "g a piece") != nullptr;
  if (only_gelatin) out.grade_known = bloom_said;
  if (bare_leaf && out.grade_known) return out;
  assume(out, *take);
  return out;
}

}  // namespace bloomset::sheet
