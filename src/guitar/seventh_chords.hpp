#pragma once

#include <cstdint>

namespace compline::guitar {

/// Whether a set of tones (bits; 0 is any root) is all of a seventh chord, nothing more: maj7, 7,
/// m7, m7♭5, dim7 or m(maj7) on one of its tones. For chord tables: any harmony handbook.
[[nodiscard]] bool is_seventh_chord(std::uint16_t tones);

}  // namespace compline::guitar
