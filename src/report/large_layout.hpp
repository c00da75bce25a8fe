#pragma once

#include "large_grip.hpp"

#include <compline/report/now_playing.hpp>

#include <optional>

namespace compline::report {

/// Where things stand in the large view: a matter of the window alone, so that they stay there
/// whatever the chords are called. Lines from above, in this order; 0: it is not there.
struct LargeLayout {
    int header = 0;  ///< section, bar, time through, tempo in large letters
    int now = 0;
    int beats = 0;
    int label = 0;  ///< when the next chord comes, in words
    int next = 0;   ///< 0: in words beside the beats
    int shape = 0;  ///< of the grip, in digits
    int status = 1;
    int keys = 0;
    int messages = 0;

    int columns = 0;  ///< of header to shape; what is right of it is the grip's
    std::optional<GripLook> grip;
    int grip_columns = 0;

    /// Of header to shape.
    [[nodiscard]] int drawn() const { return header + now + beats + label + next + shape; }
};

/// None where the window is too small for it. `strings`: of the guitar whose grips are shown; 0:
/// none are.
[[nodiscard]] std::optional<LargeLayout> large_layout(Window window, int strings);

}  // namespace compline::report
