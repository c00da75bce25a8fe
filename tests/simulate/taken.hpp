#pragma once

#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/simulate/played.hpp>

#include <algorithm>
#include <stdexcept>
#include <utility>
#include <vector>

namespace compline::tests {

/// What the simulated guitarist plays of a form, with all that is needed to look at it.
struct Taken {
    chart::Form form;
    roadmap::RoadMap map;
    simulate::Habits habits;
    simulate::PlayedTune tune;

    Taken(chart::Form played, double tempo, int times, simulate::Habits with, std::uint64_t seed)
        : form(std::move(played)),
          map(as_written(form, tempo, times)),
          habits(std::move(with)),
          tune(simulate::play(map, habits, seed)) {}

    /// As the chart has it.
    static roadmap::RoadMap as_written(const chart::Form& form, double tempo, int times) {
        auto asked = roadmap::Asked::of(form.whole(), times);
        asked.tempo = time::Bpm(tempo);
        return {form, asked};
    }

    /// First onset.
    [[nodiscard]] time::Seconds on(const simulate::ScriptedStrum& strum) const {
        const auto strings = static_cast<double>(strum.shape.places().size());
        const auto up = std::min(strum.per_string, time::Seconds(0)) * (strings - 1);
        return map.time_of(strum.at) + strum.lateness + up;
    }
    [[nodiscard]] time::Seconds off(const simulate::ScriptedStrum& strum) const {
        return on(strum) + strum.length;
    }
    [[nodiscard]] time::Seconds due(const simulate::PlayedChange& change) const {
        return map.time_of(change.at);
    }
    /// Of a change: when the next one is due, or the end.
    [[nodiscard]] time::Seconds until(std::size_t i) const {
        if (i + 1 < tune.changes.size()) return due(tune.changes[i + 1]);
        return map.time_of(map.end());
    }
    /// Strums that begin in a stretch, chords and single notes.
    [[nodiscard]] std::vector<simulate::ScriptedStrum> between(time::Seconds from,
                                                               time::Seconds to) const {
        std::vector<simulate::ScriptedStrum> found;
        for (const auto& strum : tune.script) {
            if (from <= on(strum) && on(strum) < to) found.push_back(strum);
        }
        return found;
    }
    /// The strum that lands a change.
    [[nodiscard]] simulate::ScriptedStrum landing(const simulate::PlayedChange& change) const {
        for (const auto& strum : tune.script) {
            if (time::abs(on(strum) - change.landing.value()) < time::Seconds(1e-9)) return strum;
        }
        throw std::runtime_error("nothing lands it");
    }
    [[nodiscard]] bool rings_at(time::Seconds t) const {
        return std::any_of(tune.script.begin(), tune.script.end(),
                           [&](const auto& strum) { return on(strum) < t && t < off(strum); });
    }
};

/// A tune of many qualities in which there is room for every deed.
inline chart::Form roomy() {
    return form_of({{"A", "Ebmaj7 | C7b9 | Fm7 | Bb7 | Gm7 | Gbdim7 | Fm7 | Bb13"},
                    {"B", "Am7b5 | D7b9 | Gm6 | % | Abmaj7 | Dbmaj7 | F#m7 | B7 | Emaj7 | Bb7"}},
                   "A, A, B, A", "Eb");
}

/// Visits the change on which that deed was done, in a take of the roomy tune for each seed. How
/// often it found a place.
template <typename HabitsOf, typename Visit>
int each_done(simulate::Deed deed, std::uint64_t seeds, double tempo, HabitsOf habits_of,
              Visit visit) {
    int done = 0;
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        simulate::Habits habits = habits_of(seed);
        habits.scatter = time::Seconds(0);
        habits.once = {deed};
        const Taken taken(roomy(), tempo, 1, habits, seed);
        for (std::size_t i = 0; i < taken.tune.changes.size(); ++i) {
            const auto& change = taken.tune.changes[i];
            if (change.deed != deed) continue;
            INFO("seed " << seed << ", " << simulate::name_of(habits.comping) << ", bar "
                         << change.bar << ": " << change.words);
            visit(taken, i);
            ++done;
        }
    }
    return done;
}

/// The pitch classes of a shape above a root.
inline std::vector<int> above_root(const guitar::Shape& shape, const harmony::Chord& chord) {
    std::vector<int> found;
    const auto board = guitar::Fretboard::standard();
    for (const auto& place : shape.places()) {
        found.push_back((board.note(place).pitch_class() - chord.root.pitch_class() + 12) % 12);
    }
    return found;
}

}  // namespace compline::tests
