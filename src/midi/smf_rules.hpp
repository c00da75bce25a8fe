#pragma once

#include <compline/midi/smf.hpp>

#include <cstdint>

namespace compline::midi {

// What SMF 1.0 and this reader allow, shared by reader, writer and tempo map.

/// The largest variable-length quantity: four bytes of seven bits.
inline constexpr std::uint32_t max_quantity = 0x0FFFFFFF;
/// Bounds every time computed from ticks: whole in a double, and no sum of deltas overflows.
inline constexpr std::int64_t max_tick = std::int64_t{1} << 40U;
/// 120 bpm, until the first tempo event.
inline constexpr int default_microseconds_a_quarter = 500'000;

/// Whether the pair is one that a header can hold (see File).
[[nodiscard]] bool division_is_valid(int division, int frames_per_second);

/// Of a tempo event; 0 when it does not hold a tempo.
[[nodiscard]] int microseconds_a_quarter(const MetaEvent& tempo);

}  // namespace compline::midi
