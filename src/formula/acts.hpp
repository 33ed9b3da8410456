// formula/acts.hpp - which keys a step of each act may carry: the table of docs/formula.md, once.
//
// The reader refuses a key that the act does not have, and the message lists what it has. Callers: formula; press, for the page's lists of words.
#pragma once

#include <bitset>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "formula/formula.hpp"

namespace bloomset::formula {

/// Every key of a step beside `do`, in the order in which `write` prints them.
enum class Key : std::uint8_t {
  take,
  ice,
  ice_at,
  bath,
  with,
  by,
  size,
  in,
  vessel,
  charges,
  gas,
  pressure,
  purged,
  to,
  at,
  until,
  time,
  split,
  leave,
  out,
  yield,
  loss,
  keeps,
  hard,
  maybe
};
inline constexpr std::size_t key_count = static_cast<std::size_t>(Key::maybe) + 1;
using KeySet = std::bitset<key_count>;

std::string_view name(Key);
KeySet keys_of(Act);
bool has(const KeySet&, Key);
/// "take, time, at …" without `do`.
std::string listed(const KeySet&);
/// `do` and every key of any act: for the nearest name of an unknown key.
const std::vector<std::string>& all_step_keys();
const std::vector<std::string>& all_act_names();

}  // namespace bloomset::formula
