#pragma once

#include <compline/time/units.hpp>

#include <optional>
#include <string_view>

namespace compline::roadmap {

/// A ladder as it is asked for: the same bars over and over, from a slow tempo up to a fast one.
/// Both in whole beats (quarter notes) a minute; `from` is the slower.
struct AskedLadder {
    time::Bpm from{96};
    time::Bpm to{132};
    bool operator==(const AskedLadder&) const = default;
};

/// Reads "96-132". Throws text::BadInput for what is no pair of whole tempi, one that goes down or
/// nowhere, or that no band can play.
[[nodiscard]] AskedLadder read_ladder(std::string_view text);

/// What a ladder made of a time through, and what it does then. It is kept among the decisions, so
/// that nobody works it out again; the tempo and the way that come of it are decisions of their
/// own, and this one changes nothing that is played.
struct LadderStep {
    enum class Judged {
        clean,
        not_clean,
        too_little,  ///< was heard to count
        not_whole,   ///< paused, rejoined, or the tempo moved by hand: it does not count
    };
    enum class Next {
        again,    ///< in the same tempo
        faster,   ///< the next rung
        slower,   ///< some rungs down
        section,  ///< the top is clean: once through the section around
        enough,   ///< for today: it ends
    };
    int time_through = 1;  ///< that it was, from 1
    time::Bpm tempo{120};  ///< of the tune, in it
    Judged judged = Judged::clean;
    int due = 0;     ///< changes of it that were judged by then;
    int struck = 0;  ///< of these, or held, for certain;
    int right = 0;   ///< of these, in time and with the right tones
    Next next = Next::again;
    time::Bpm next_tempo{120};
    std::optional<time::Bpm> above = {};  ///< the rung above that it was played on; none: the top
    bool operator==(const LadderStep&) const = default;
};

/// By their names in a take's text: "not clean", "too little".
[[nodiscard]] std::string_view name_of(LadderStep::Judged judged);
[[nodiscard]] std::string_view name_of(LadderStep::Next next);

}  // namespace compline::roadmap
