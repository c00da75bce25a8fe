#pragma once

#include <compline/time/meter.hpp>
#include <compline/time/units.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace compline::chart {

/// What the comper means to play, rhythmically.
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

}  // namespace compline::chart
