#include "press/outline_json.hpp"

#include <algorithm>
#include <array>
#include <memory>

#include "text/document.hpp"
#include "text/fold.hpp"
#include "text/units.hpp"

namespace bloomset::press {
namespace {

using text::Json;
using text::Node;
using text::NodeKind;

constexpr std::array<const char*, 8> amount_kinds = {"mass", "volume", "pieces", "percent", "percent_total", "all", "rest", "half"};
static_assert(amount_kinds.size() == static_cast<std::size_t>(text::AmountKind::half) + 1);

Json place_json(base::Span span) {
  Json out = Json::object();
  out.set("line", span.line).set("column", span.column).set("length", span.length);
  return out;
}

Json pen(std::string text, base::Span span) {
  Json out = Json::object();
  out.set("text", std::move(text)).set("place", place_json(span));
  return out;
}

// A value as one edits it: a text without its quotes, the names of a list, a number, true or false.
std::string shown_value(const Node& node, const base::Sources& sources) {
  switch (node.kind) {
    case NodeKind::string:
      return node.string;
    case NodeKind::boolean:
      return node.boolean ? "true" : "false";
    case NodeKind::array: {
      std::string names;
      for (const Node& item : node.items) names.append(&item == node.items.data() ? "" : "; ").append(item.string);
      return names;
    }
    default:
      return std::string(sources.line(node.span.source, node.span.line).substr(node.span.column - 1, node.span.length));
  }
}

class Outliner {
 public:
  Outliner(const formula::Formula& formula, const base::Sources& sources) : formula_(formula), sources_(sources) {}

  Json outline() {
    const Node* root = tree(formula_.source);
    if (root == nullptr) return {};
    Json out = Json::object();
    const Node* serves = root->find("serves");
    out.set("title", value_pen(*root->find("title"))).set("serves", serves ? value_pen(*serves) : Json()).set("measures", text::name(formula_.measures));
    out.set("targets", Json::array_of(formula_.targets, target_json));
    Json parts = Json::array();
    std::size_t own = 0;
    for (std::size_t p = 0; p < formula_.parts.size(); ++p) {
      const bool borrowed = formula_.parts[p].source != formula_.source;
      const Node* node = borrowed ? borrowed_node(formula_.parts[p]) : &root->find("part")->items[own++];
      if (node != nullptr) parts.push(part_json(p, *node, borrowed));
    }
    out.set("parts", std::move(parts));
    out.set("serve", formula_.serve ? serve_json(*root->find("serve")) : Json());
    return out;
  }

 private:
  const Node* tree(std::uint32_t source) {
    for (const auto& known : trees_)
      if (known->first == source) return &known->second;
    auto read = text::read_toml(source, sources_);
    if (!read) return nullptr;
    trees_.push_back(std::make_unique<std::pair<std::uint32_t, Node>>(source, std::move(*read)));
    return &trees_.back()->second;
  }

  const Node* borrowed_node(const formula::Part& part) {
    const Node* root = tree(part.source);
    const Node* parts = root != nullptr ? root->find("part") : nullptr;
    if (parts == nullptr) return nullptr;
    for (const Node& node : parts->items)
      if (const Node* name = node.find("name"); name != nullptr && name->string == part.name) return &node;
    return nullptr;
  }

  Json value_pen(const Node& node) const { return pen(shown_value(node, sources_), node.is(NodeKind::string) ? node.inside : node.span); }

  static Json target_json(const formula::Target& target) {
    const bool low = target.wish != formula::Wish::at_most, high = target.wish != formula::Wish::at_least;
    const bool fraction = target.property == "fill";  // judged and given as a fraction, whatever it was written in
    Json out = Json::object();
    out.set("text", target.text).set("place", place_json(target.span));
    out.set("where", target.of_serve ? std::string("serve") : target.part).set("property", target.property).set("key", formula::target_key(target.property));
    out.set("unit", fraction ? std::string_view() : formula::target_unit(target.property));
    out.set("low", low ? Json(target.low) : Json()).set("high", high ? Json(target.high) : Json()).set("at_minute", target.at_minute);
    return out;
  }

  Json part_json(std::size_t index, const Node& node, bool borrowed) const {
    const formula::Part& part = formula_.parts[index];
    Json out = Json::object();
    out.set("index", index + 1).set("name", part.name).set("name_pen", borrowed ? Json() : value_pen(*node.find("name")));
    out.set("made", part.made == formula::Made::ahead ? "ahead" : "to order").set("borrowed", borrowed);
    out.set("file", borrowed ? Json(sources_.name(part.source)) : Json()).set("steps", steps_json(part.steps, node.find("step"), index + 1, borrowed));
    return out;
  }

  Json serve_json(const Node& node) const {
    const std::size_t index = formula_.parts.size() + 1;
    Json out = Json::object();
    out.set("index", index).set("vessel", value_pen(*node.find("vessel"))).set("steps", steps_json(formula_.serve->pours, node.find("pour"), index, false));
    return out;
  }

  Json steps_json(const std::vector<formula::Step>& steps, const Node* list, std::size_t part, bool borrowed) const {
    Json out = Json::array();
    for (std::size_t s = 0; s < steps.size() && list != nullptr && s < list->items.size(); ++s)
      out.push(step_json(steps[s], list->items[s], part, s + 1, borrowed));
    return out;
  }

  Json step_json(const formula::Step& step, const Node& node, std::size_t part, std::size_t number, bool borrowed) const {
    const Node* act = node.find("do");
    Json out = Json::object();
    out.set("number", number).set("do", formula::name(step.act)).set("do_pen", act != nullptr && !borrowed ? value_pen(*act) : Json()).set("maybe", step.maybe);
    out.set("conditions", conditions_json(node, borrowed));
    Json takes = Json::array();
    const std::string stream = "take:" + std::to_string(part) + "." + std::to_string(number) + ".";
    const auto push = [&](const formula::Take& take, std::size_t n, const Node& written, const char* kind) {
      takes.push(take_json(take, n, stream + std::to_string(n), written.is(NodeKind::table) ? *written.find("take") : written, kind, borrowed));
    };
    const Node* list = node.find("take");
    for (std::size_t t = 0; t < step.takes.size(); ++t)
      push(step.takes[t], t + 1, list->items[t], step.takes[t].kind == formula::ThingKind::made ? "made" : "bought");
    if (step.ice) push(*step.ice, step.takes.size() + 1, *node.find("ice"), "ice");
    if (step.bath)
      push(step.bath->in, step.takes.size() + 2, *node.find("bath")->find("in"), step.bath->in.kind == formula::ThingKind::made ? "made" : "bought");
    out.set("takes", std::move(takes));
    return out;
  }

  Json conditions_json(const Node& step, bool borrowed) const {
    Json out = Json::array();
    const auto push = [&](const std::string& key, const Node& node) {
      Json row = Json::object();
      const base::Span place = node.is(NodeKind::string) ? node.inside : node.span;
      row.set("key", key).set("text", shown_value(node, sources_)).set("place", borrowed ? Json() : place_json(place));
      out.push(std::move(row));
    };
    for (const Node& member : step.items) {
      if (member.key == "do" || member.key == "take" || member.key == "ice" || member.key == "maybe") continue;
      if (!member.is(NodeKind::table)) {
        push(member.key, member);
        continue;
      }
      for (const Node& inner : member.items)
        if (member.key != "bath" || inner.key != "in") push(member.key + "." + inner.key, inner);
    }
    return out;
  }

  Json take_json(const formula::Take& take, std::size_t number, std::string stream, const Node& written, const char* kind, bool borrowed) const {
    // Inside of a text with escapes there is no place for the amount alone.
    const bool plain = !borrowed && !(written.inside == written.span);
    const base::Span amount = take.amount.span;
    Json out = Json::object();
    out.set("number", number).set("kind", kind).set("thing", take.thing).set("label", formula::label(take));
    out.set("amount", plain ? pen(std::string(sources_.line(amount.source, amount.line).substr(amount.column - 1, amount.length)), amount) : Json());
    out.set("whole", borrowed ? Json() : value_pen(written));
    out.set("amount_kind", amount_kinds[static_cast<std::size_t>(take.amount.kind)]).set("unit", take.amount.unit);
    out.set("mark", take.mark.empty() ? Json() : Json(take.mark)).set("stream", std::move(stream));
    return out;
  }

  const formula::Formula& formula_;
  const base::Sources& sources_;
  std::vector<std::unique_ptr<std::pair<std::uint32_t, Node>>> trees_;  // of the texts asked for so far
};

}  // namespace

Json outline_json(const formula::Formula& formula, const base::Sources& sources) { return Outliner(formula, sources).outline(); }

}  // namespace bloomset::press
