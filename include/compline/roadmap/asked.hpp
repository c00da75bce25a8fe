#pragma once

#include <compline/chart/way.hpp>
#include <compline/roadmap/click.hpp>
#include <compline/roadmap/ladder.hpp>
#include <compline/roadmap/silence.hpp>
#include <compline/time/units.hpp>

#include <optional>

namespace compline::roadmap {

/// A swing that the player asks for, whatever the chart says.
struct AskedSwing {
    std::optional<double> ratio;  ///< none: as the tempo has it
    bool operator==(const AskedSwing&) const = default;
};

/// What is asked of a road map, before a beat is played. What is left open the chart or the tempo
/// decides.
struct Asked {
    chart::Way way;                    ///< which bars, how often; a time through at least
    chart::AskedManner manner;         ///< the player's own wishes, closest of all
    std::optional<time::Bpm> tempo;    ///< none: the chart's
    std::optional<AskedSwing> swing;   ///< none: the chart's
    std::optional<int> count_in_bars;  ///< 0 to 2; none: usual_count_in()
    std::optional<Click> click;        ///< in place of the drums
    std::optional<Silence> silence;
    /// The way goes on, and the tempo is the one to begin with; what moves it is decided later.
    std::optional<AskedLadder> ladder;
    bool melody = false;  ///< somebody plays one, on the heads where the way has any
    bool guitar = false;  ///< a guitar of the band comps

    /// A passage some times through, or until stopped, as the chart says.
    [[nodiscard]] static Asked of(chart::Passage passage, std::optional<int> times_through);

    bool operator==(const Asked&) const = default;
};

/// Two bars (1 - 2 - | 1 2 3 4); under 80 bpm, where they would take six seconds and more, one.
[[nodiscard]] int usual_count_in(time::Bpm tempo);

}  // namespace compline::roadmap
