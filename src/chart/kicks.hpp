#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace compline::chart {

// What stands behind a sign of a bar, without a blank: `!` is a kick on the beat where the sign
// begins, `&` the off-beat after that: `F7&!` is a kick there, `F7&Bb7` a chord that comes in
// there, `F7&Bb7!` both. `~4` behind all else is a fermata: held four beats longer.

/// A sign and its marks, apart. They point into what was read.
struct MarkedSign {
    std::string_view sign;      ///< what begins on the beat; empty: what was there goes on
    std::string_view kicks;     ///< "!", "&!" ...
    std::string_view off_beat;  ///< the chord that comes in on the off-beat; empty: none
    std::string_view off_kick;  ///< behind that chord
    std::string_view hold;      ///< "~", "~4"; empty: none
};

/// No chord symbol holds a `!`, a `&` or a `~`. Whether the kicks are good is read_kicks()'s.
[[nodiscard]] MarkedSign read_marks(std::string_view token);

struct KickMarks {
    bool on_beat = false;
    bool off_beat = false;
};

/// "", "!", "&!" or "!&!"; nothing when it is none of them.
[[nodiscard]] std::optional<KickMarks> read_kicks(std::string_view marks);

/// How many beats a hold lasts, 1 to 32; 2 where it does not say; nothing when it is no hold.
[[nodiscard]] std::optional<int> read_hold(std::string_view mark);

}  // namespace compline::chart
