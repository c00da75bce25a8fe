#pragma once

#include <compline/chart/chart.hpp>
#include <compline/practice/comparison.hpp>
#include <compline/practice/places.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::practice {

// What became of a tune over several evenings, place by place: takes of one evening count together
// (evening_of); each place is compared with itself, the first third of the evenings on which it was
// played with the last third. So a loop of four bars says something of these four, and nothing of
// the tune.

struct TempoBounds {
    time::Bpm slowest{120};
    time::Bpm fastest{120};
    bool operator==(const TempoBounds&) const = default;
};
/// None where neither has any.
[[nodiscard]] std::optional<TempoBounds> around_both(const std::optional<TempoBounds>& one,
                                                     const std::optional<TempoBounds>& other);

/// As much of a take as is needed here; so a folder of them needs little memory.
struct TakeInPlaces {
    std::string title;    ///< of the tune
    std::string program;  ///< that judged
    std::string take;     ///< name of its file, without folders
    std::string made;     ///< ISO 8601; else it has no date
    chart::Key key;
    std::optional<TempoBounds> tempi;  ///< none: free time
    bool by_sound = false;
    Places places;
};

/// What tones a take by MIDI has, `tones_too`; else it is judged by time alone, as those beside it.
[[nodiscard]] TakeInPlaces in_places(const Report& report, bool tones_too);

/// The takes of an evening; one without a date stands by itself.
struct PlayedEvening {
    std::string date;  ///< "2026-11-03"; empty: none is known
    std::vector<std::string> takes;
    std::vector<chart::Key> keys;  ///< each once
    std::optional<TempoBounds> tempi;
    PlaceFigures all;  ///< of all places
};

/// What became of a place.
enum class Became {
    worse,
    better,
    same,
    once  ///< played on one evening alone: nobody knows
};
[[nodiscard]] std::string_view name_of(Became became);

struct PlaceOverTime {
    ComparedPlace between;                        ///< the first third of its evenings and the last
    std::size_t evenings = 0;                     ///< on which it was played
    std::vector<std::optional<PlaceFigures>> on;  ///< one for each evening of the tune

    [[nodiscard]] Became became() const;
    /// Nothing to mend, whenever it was played.
    [[nodiscard]] bool always_right() const;
};

struct OverTime {
    std::string title;
    std::string program;
    chart::Key key;                       ///< in which the chords are named: that of the last take
    std::vector<PlayedEvening> evenings;  ///< in order; those without a date behind, by their names
    std::vector<PlaceOverTime> places;    ///< in order of the form
    PlaceFigures before;                  ///< of all places that can be compared
    PlaceFigures after;
    int takes_by_sound = 0;
    int takes = 0;
    bool time_alone = false;  ///< tones are not judged

    [[nodiscard]] int count(Became became) const;
    [[nodiscard]] bool in_several_keys() const;
};

/// How many of so many evenings make the first third, and the last: one at least.
[[nodiscard]] std::size_t third_of(std::size_t evenings);

/// Takes of one tune (one at least, asserted), judged alike, in any order.
[[nodiscard]] OverTime over_time(std::vector<TakeInPlaces> takes);

}  // namespace compline::practice
