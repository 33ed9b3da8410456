#include "flow/acts.hpp"

#include <array>
#include <limits>

namespace bloomset::flow {
namespace {

using formula::Act;
constexpr double own = std::numeric_limits<double>::quiet_NaN();
constexpr double boils = until_it_boils_c;
constexpr const char* practice = "practice";

// CO2 kept: a careful pour down the side keeps about four fifths, shaking or heating nearly nothing. Sticks and
// evaporation: what a small pan or blade keeps and an open one steams off at 100 C. Contact times: ten to fifteen seconds of hard shaking come within
// 2 C of the floor (published shaking trials of 2009-2010), so about 3.5 s; stirring takes over two minutes to match
// a 15 s shake (the same trials), so about 25 s.
// A table is read down its columns.
// clang-format off
constexpr std::array<ActRow, 35> rows = {{
    // act                 op           CO2   sticks steam/min  seconds  to      contact follows source
    {Act::combine,         Op::mix,     0.85, 0.000, 0.0,      10.0,    own,    0.0,    false,  practice},
    {Act::dissolve,        Op::mix,     0.50, 0.000, 0.0,      60.0,    own,    0.0,    false,  practice},
    {Act::dilute,          Op::mix,     0.85, 0.000, 0.0,      10.0,    own,    0.0,    false,  practice},
    {Act::pour,            Op::mix,     0.90, 0.000, 0.0,      5.0,     own,    0.0,    false,  practice},
    {Act::float_on,        Op::mix,     0.95, 0.000, 0.0,      5.0,     own,    0.0,    false,  practice},
    {Act::layer,           Op::mix,     0.95, 0.000, 0.0,      10.0,    own,    0.0,    false,  practice},
    {Act::top,             Op::mix,     0.80, 0.000, 0.0,      5.0,     own,    0.0,    false,  practice},
    {Act::garnish,         Op::mix,     1.00, 0.000, 0.0,      5.0,     own,    0.0,    false,  practice},
    {Act::rim,             Op::mix,     1.00, 0.000, 0.0,      10.0,    own,    0.0,    false,  practice},
    {Act::roll,            Op::mix,     1.00, 0.000, 0.0,      30.0,    own,    0.0,    false,  practice},
    {Act::rinse,           Op::rinse,   1.00, 0.850, 0.0,      5.0,     own,    0.0,    false,  practice},
    {Act::warm,            Op::heat,    0.10, 0.005, 0.006,    180.0,   own,    0.0,    false,  practice},
    {Act::boil,            Op::heat,    0.00, 0.010, 0.015,    180.0,   boils,  0.0,    false,  practice},
    {Act::reduce,          Op::heat,    0.00, 0.010, 0.030,    600.0,   boils,  0.0,    false,  practice},
    {Act::chill,           Op::cool,    0.95, 0.000, 0.0,      1800.0,  own,    0.0,    false,  practice},
    {Act::freeze,          Op::cool,    0.80, 0.000, 0.0,      14400.0, own,    0.0,    false,  practice},
    {Act::rest,            Op::cool,    0.80, 0.000, 0.0,      600.0,   own,    0.0,    false,  practice},
    {Act::degas,           Op::mix,     0.02, 0.000, 0.0,      60.0,    own,    0.0,    false,  practice},
    {Act::infuse,          Op::infuse,  0.10, 0.005, 0.003,    600.0,   own,    0.0,    false,  practice},
    {Act::strain,          Op::strain,  0.60, 0.003, 0.0,      30.0,    own,    0.0,    false,  practice},
    {Act::dry_shake,       Op::mix,     0.05, 0.000, 0.0,      12.0,    own,    0.0,    false,  practice},
    {Act::torch,           Op::mix,     1.00, 0.000, 0.0,      20.0,    own,    0.0,    false,  practice},
    {Act::bloom,           Op::mix,     1.00, 0.000, 0.0,      600.0,   own,    0.0,    false,  practice},
    {Act::disperse,        Op::mix,     0.10, 0.000, 0.0,      120.0,   own,    0.0,    false,  practice},
    {Act::hydrate,         Op::mix,     0.10, 0.000, 0.0,      600.0,   own,    0.0,    false,  practice},
    {Act::set,             Op::cool,    0.80, 0.000, 0.0,      7200.0,  own,    0.0,    false,  practice},
    {Act::unmould,         Op::mix,     1.00, 0.010, 0.0,      60.0,    own,    0.0,    false,  practice},
    {Act::cut,             Op::mix,     1.00, 0.010, 0.0,      120.0,   own,    0.0,    false,  practice},
    {Act::blitz,           Op::mix,     0.05, 0.020, 0.0,      60.0,    own,    0.0,    false,  practice},
    {Act::froth,           Op::mix,     0.05, 0.000, 0.0,      60.0,    own,    0.0,    false,  practice},
    {Act::sphere,          Op::soak,    0.20, 0.000, 0.0,      120.0,   own,    0.0,    false,  practice},
    {Act::clarify,         Op::clarify, 0.05, 0.000, 0.0,      3600.0,  own,    0.0,    false,  practice},
    {Act::carbonate,       Op::mix,     1.00, 0.000, 0.0,      600.0,   own,    0.0,    false,  practice},
    {Act::charge,          Op::mix,     1.00, 0.000, 0.0,      60.0,    own,    0.0,    false,  practice},
    {Act::dispense,        Op::mix,     0.90, 0.000, 0.0,      5.0,     own,    0.0,    false,  practice},
}};
constexpr std::array<ActRow, 3> contact_rows = {{
    {Act::shake,           Op::contact, 0.05, 0.000, 0.0,      12.0,    own,    3.5,    true,   "published shaking trials, web articles 2009-2010: 10-15 s to near equilibrium"},
    {Act::stir,            Op::contact, 0.40, 0.000, 0.0,      30.0,    own,    25.0,   false,  "published shaking trials, web articles 2009-2010: over 2 min to match a 15 s shake"},
    {Act::blend,           Op::contact, 0.02, 0.010, 0.0,      20.0,    own,    4.0,    true,   practice},
}};
// clang-format on
constexpr auto all_rows = [] {
  std::array<ActRow, rows.size() + contact_rows.size()> all{};
  for (std::size_t i = 0; i < rows.size(); ++i) all[i] = rows[i];
  for (std::size_t i = 0; i < contact_rows.size(); ++i) all[rows.size() + i] = contact_rows[i];
  return all;
}();

}  // namespace

std::span<const ActRow> act_rows() { return all_rows; }

const ActRow* row_of(Act act) {
  for (const ActRow& row : all_rows)
    if (row.act == act) return &row;
  return nullptr;
}

}  // namespace bloomset::flow
