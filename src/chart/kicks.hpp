#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace compline::chart {

// The marks of kicks behind a sign of a bar: `F7!` is a kick on the sign's beat, `F7&!` on the
// off-beat after it, `F7!&!` both.

struct KickMarks {
    bool on_beat = false;
    bool off_beat = false;
};

/// Where the marks of a kick begin in a sign and its marks; its end when there are none. No chord
/// symbol holds a ! or a &.
[[nodiscard]] std::size_t start_of_kicks(std::string_view token);

/// "", "!", "&!" or "!&!"; nothing when it is none of them.
[[nodiscard]] std::optional<KickMarks> read_kicks(std::string_view marks);

}  // namespace compline::chart
