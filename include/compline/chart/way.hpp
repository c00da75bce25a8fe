#pragma once

#include <compline/chart/form.hpp>
#include <compline/chart/manner.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace compline::chart {

/// Bars that a road map may last.
inline constexpr int most_bars_of_a_road_map = 20000;

/// One time through a passage, as part of a way through the form.
struct Stretch {
    Passage passage;
    std::string name;        ///< "head", "solo", "intro", "tag"; empty: just a time through
    AskedManner manner;      ///< asked for beyond chart and section
    bool silent = false;     ///< drums and bass lay out
    bool until_cue = false;  ///< comes again until somebody gives the cue; so often without one
    int rit = 0;             ///< its last bars slow down
    bool a_tempo = false;    ///< in the first tempo again, after a rit
    bool operator==(const Stretch&) const = default;
};

/// The way through a form: stretches in order, one time through each. The last one comes again and
/// again where the way goes on until it is stopped. In time it is a road map
/// (roadmap/road_map.hpp).
///
/// A held ending is the band's alone: it is no bar of the form and is not judged (2026-11-25).
struct Way {
    std::vector<Stretch> stretches;  ///< one at least
    bool goes_on = false;            ///< until stopped
    bool held_ending = false;        ///< after the last bar one more, on the tonic, that rings

    /// A passage played some times through, or until stopped.
    [[nodiscard]] static Way of(Passage passage, std::optional<int> times);

    /// The same as a band plays it that was asked for no road map: the whole tune ends, on its
    /// tonic; a passage out of it, or what goes on until it is stopped, does not.
    [[nodiscard]] static Way through(const Form& form, Passage passage, std::optional<int> times);

    /// The first so many times through (1 or more, asserted), and then it ends. A held ending stays
    /// only behind the whole.
    [[nodiscard]] Way first(int times) const;

    /// How many times through there are; none: until stopped.
    [[nodiscard]] std::optional<int> times_through() const;

    // Times through are counted from 1 (asserted).

    /// The stretch of a time through; past the last the last one.
    [[nodiscard]] const Stretch& stretch(int time_through) const;

    /// Bars before a time through, also before the one that would follow the last.
    [[nodiscard]] std::int64_t bars_before(int time_through) const;

    /// Every stretch is the same passage, and none asks for anything.
    [[nodiscard]] bool is_uniform() const;

    /// From the first bar of the form that is played to the last; of no stretches, bar 0.
    [[nodiscard]] Passage reach() const;

    bool operator==(const Way&) const = default;
};

/// A way as far as the first of its parts that waits for a cue, which then comes again and again,
/// and what follows the cue; none: it waits for none. Where nothing follows, that part is played
/// once more.
struct UntilCue {
    Way now;
    std::optional<Way> then;
};
[[nodiscard]] UntilCue until_cue(const Way& way);

}  // namespace compline::chart
