// flow/modes.hpp - the variants of the unit operations and the order of their knobs: read by compile and by the acts.
#pragma once

#include <cstdint>

namespace bloomset::flow {

enum class TakeMode : std::uint8_t { mass, volume, share_of_refs, fizz };  // fizz: the CO2 that a pressure drives into the ref
enum class DrawMode : std::uint8_t { mass, volume, foam_volume, share, share_of_refs, rest };
enum class HeatEnd : std::uint8_t { temperature, mass, brix, share_of_start };

// Knob orders. `amount` is kg, m3 or a share, by the mode.
namespace take_knob {
inline constexpr std::uint32_t amount = 0, celsius = 1, wet = 2;
}
namespace draw_knob {
inline constexpr std::uint32_t amount = 0, there_is = 1,
                               foam_ratio = 2;  // there_is: how much of the part one user's basis may draw (batches over serves); foam_ratio: foam over base
}
namespace mix_knob {
inline constexpr std::uint32_t co2_kept = 0, sticks = 1;
}
namespace heat_knob {
inline constexpr std::uint32_t co2_kept = 0, sticks = 1, to_c = 2, steams_per_s = 3, seconds = 4, end = 5;
}
namespace infuse_knob {
inline constexpr std::uint32_t co2_kept = 0, sticks = 1, to_c = 2, steams_per_s = 3, seconds = 4, extracts = 5;  // one `extracts` a solid
}
namespace cool_knob {
inline constexpr std::uint32_t co2_kept = 0, sticks = 1, to_c = 2;
}
namespace contact_knob {
inline constexpr std::uint32_t co2_kept = 0, sticks = 1, seconds = 2, time_constant_s = 3, vessel_j_k = 4, vessel_c = 5;
}
namespace strain_knob {
inline constexpr std::uint32_t co2_kept = 0, sticks = 1, pulp_out = 2, pulp_holds = 3;
}
namespace split_knob {
inline constexpr std::uint32_t share = 0;
}
namespace soak_knob {
inline constexpr std::uint32_t co2_kept = 0, sticks = 1, takes_up = 2;
}
namespace clarify_knob {
inline constexpr std::uint32_t co2_kept = 0, sticks = 1, clear = 2, keeps_solids = 3, keeps_protein = 4, keeps_fat = 5, keeps_agents = 6;
}
namespace fizz_knob {
inline constexpr std::uint32_t gross_m3 = 0, fill_m3 = 1;
}
namespace stand_knob {  // one `half_time_s` a foam
inline constexpr std::uint32_t seconds = 0, since_s = 1, ice_time_s = 2, glass_time_s = 3, glass_j_k = 4, room_c = 5, room_w_k = 6, dew_w_pa = 7,
                               room_vapour_pa = 8, co2_time_s = 9, half_time_s = 10;
}

}  // namespace bloomset::flow
