#include "formula/acts.hpp"

#include <array>

#include "text/fold.hpp"

namespace bloomset::formula {
namespace {

constexpr std::array<std::string_view, act_count> act_names = {
    "combine",  "dissolve", "dilute", "pour",    "float", "layer",  "top",    "garnish", "rim",     "roll",      "rinse",    "warm",     "boil",
    "reduce",   "chill",    "freeze", "rest",    "degas", "infuse", "strain", "torch",   "shake",   "dry shake", "stir",     "blend",    "bloom",
    "disperse", "hydrate",  "set",    "unmould", "cut",   "blitz",  "froth",  "sphere",  "clarify", "charge",    "dispense", "carbonate"};

constexpr std::array<std::string_view, key_count> key_names = {"take",    "ice", "ice_at",   "bath",   "with",  "by",   "size",  "in",   "vessel",
                                                               "charges", "gas", "pressure", "purged", "to",    "at",   "until", "time", "split",
                                                               "leave",   "out", "yield",    "loss",   "keeps", "hard", "maybe"};

KeySet set_of(std::initializer_list<Key> keys) {
  KeySet set;
  for (const Key key : keys) set.set(static_cast<std::size_t>(key));
  return set;
}

// What every act has, and then each row of the table's own keys.
KeySet own_keys(Act act) {
  switch (act) {
    case Act::combine:
    case Act::dissolve:
    case Act::dilute:
    case Act::pour:
    case Act::float_on:
    case Act::layer:
    case Act::top:
    case Act::garnish:
    case Act::rim:
    case Act::roll:
    case Act::rinse:
      return {};
    case Act::warm:
    case Act::boil:
    case Act::reduce:
    case Act::chill:
    case Act::freeze:
    case Act::rest:
    case Act::degas:
    case Act::strain:
      return set_of({Key::until});
    case Act::infuse:
      return set_of({Key::until, Key::yield});
    case Act::torch:
      return set_of({Key::until, Key::with});
    case Act::shake:
    case Act::dry_shake:
    case Act::stir:
    case Act::blend:
      return set_of({Key::ice, Key::ice_at});
    case Act::bloom:
    case Act::disperse:
    case Act::hydrate:
    case Act::set:
    case Act::unmould:
    case Act::blitz:
    case Act::froth:
      return {};
    case Act::cut:
      return set_of({Key::size});
    case Act::sphere:
      return set_of({Key::bath, Key::size});
    case Act::clarify:
      return set_of({Key::out, Key::by});
    case Act::charge:
    case Act::dispense:
    case Act::carbonate:
      return set_of({Key::charges, Key::gas, Key::purged, Key::pressure});
  }
  return {};
}

}  // namespace

std::string_view name(Act act) { return act_names[static_cast<std::size_t>(act)]; }

std::optional<Act> act_named(std::string_view written) {
  for (std::size_t i = 0; i < act_count; ++i)
    if (act_names[i] == written) return static_cast<Act>(i);
  return std::nullopt;
}

std::string_view name(Key key) { return key_names[static_cast<std::size_t>(key)]; }

KeySet keys_of(Act act) {
  return own_keys(act) |
         set_of({Key::take, Key::time, Key::at, Key::to, Key::in, Key::vessel, Key::leave, Key::keeps, Key::hard, Key::split, Key::loss, Key::maybe});
}

bool has(const KeySet& set, Key key) { return set.test(static_cast<std::size_t>(key)); }

std::string listed(const KeySet& set) {
  std::string text;
  for (std::size_t i = 0; i < key_count; ++i)
    if (set.test(i)) text.append(text.empty() ? "" : ", ").append(key_names[i]);
  return text;
}

const std::vector<std::string>& all_step_keys() {
  static const std::vector<std::string> keys = [] {
    std::vector<std::string> all = {"do"};
    all.insert(all.end(), key_names.begin(), key_names.end());
    return all;
  }();
  return keys;
}

const std::vector<std::string>& all_act_names() {
  static const std::vector<std::string> names(act_names.begin(), act_names.end());
  return names;
}

}  // namespace bloomset::formula
