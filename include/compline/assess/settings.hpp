#pragma once

#include <compline/chart/form.hpp>
#include <compline/harmony/palette.hpp>
#include <compline/time/meter.hpp>
#include <compline/time/swing.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::assess {

/// What the player means to play, rhythmically.
struct Rhythm {
    enum class Kind {
        free,     ///< comping: a chord may land on any beat or off-beat, or be laid out
        four,     ///< four to the bar: a strum on every beat (in 3/4 three)
        pattern,  ///< a strum on the beats named, each bar
    };
    Kind kind = Kind::free;
    std::vector<time::Ticks> positions;  ///< of a pattern: from the bar line, ascending
    time::Meter meter{4};                ///< in which its beats are named

    [[nodiscard]] std::string name() const;  ///< "free", "four" or "1 2&"
    /// Where a strum is due in a bar: every beat of `four`, the positions of a pattern.
    [[nodiscard]] std::vector<time::Ticks> due_in_bar(time::Meter of) const;
    /// However its beats are named.
    bool operator==(const Rhythm& other) const {
        return kind == other.kind && positions == other.positions;
    }
};

/// Reads "free", "four", or beats such as "1 2&" ("2&" is the off-beat after 2). Throws
/// text::BadInput.
[[nodiscard]] Rhythm read_rhythm(std::string_view text, time::Meter meter);

/// What "in time" is measured from.
enum class Against {
    own,   ///< from the beat to where this player stands by habit
    beat,  ///< the beat itself
};
[[nodiscard]] std::string_view name_of(Against against);
[[nodiscard]] std::optional<Against> read_against(std::string_view name);

/// A tolerance that is asked for.
inline constexpr double narrowest_tolerance_ms = 1;
inline constexpr double widest_tolerance_ms = 200;

struct Settings {
    std::optional<time::Seconds> tolerance;  ///< none: auto_tolerance
    Rhythm rhythm;
    harmony::Strictness strictness = harmony::Strictness::working;
    bool pushes = true;  ///< anticipations are right
    Against against = Against::own;
    /// These bars of the form alone are judged; all that was played is read. None: all.
    std::optional<chart::Passage> part = {};
};

/// 10 % of the beat, at least 25 ms and at most 60, never over a third of the short note (so that
/// a beat and the off-beat before it never overlap): 42 ms at 132 bpm.
[[nodiscard]] time::Seconds auto_tolerance(time::Bpm tempo, const time::Swing& swing);

}  // namespace compline::assess
