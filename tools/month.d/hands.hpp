#pragma once

#include "pickup_strings.hpp"

#include <compline/guitar/shape.hpp>
#include <compline/practice/session.hpp>
#include <compline/roadmap/road_map.hpp>
#include <compline/simulate/chance.hpp>

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace compline::month {

// The hands of a pupil whose rate is known: so many of a hundred chord changes are meant to come in
// time. They play to a band as an evening goes, bar by bar, by grips written down by hand, and know
// nothing of a judge; what each change was meant to be is kept.

/// What is struck besides the changes.
enum class Comping {
    four_to_the_bar,
    charleston,   ///< 1 and the off-beat after 2
    halves,       ///< 1 and 3
    long_chords,  ///< little
};

/// What stays bad, whatever else gets better: a bar of the form or, in every tune, two chords.
struct StaysBad {
    int bar = 0;       ///< 0: anywhere
    std::string from;  ///< symbols in plain letters; empty: any
    std::string to;
    double in_time = 0.3;
};

/// How somebody plays a tune on an evening.
struct Skill {
    double in_time = 0.8;  ///< share of the changes, at that tempo
    time::Bpm at{120};     ///< an eighth faster is twice as many faults
    double wrong = 0.03;   ///< share of the changes that have a foreign tone
    double struck = 1;     ///< share of the changes that are struck at all
    /// What is left of the faults with each time through, of bars played over and over; a third in
    /// the end. The next evening it begins anew. What stays bad does.
    double learns = 1;
    time::Seconds place{0.006};    ///< behind the beat, always
    time::Seconds scatter{0.013};  ///< standard deviation
    Comping comping = Comping::charleston;
    std::vector<StaysBad> stays_bad;
    std::uint64_t own = 1;  ///< which places are a little harder than others
};

enum class Fate { in_time, late, missed, not_struck };

struct MeantChange {
    int time_through = 1;
    int bar = 1;  ///< of the form
    time::BeatOfBar beat;
    std::string from;  ///< symbols in plain letters; of the first chord empty
    std::string to;
    double chance = 1;  ///< of coming in time, as it was meant
    Fate fate = Fate::in_time;
    bool wrong = false;
};

/// Chance that keeps near its rates over an evening, so that a rate can be seen in one.
class Luck {
  public:
    explicit Luck(simulate::Chance& chance) : chance_(chance) {}
    /// Whether a fault befalls that comes so often; of each kind for itself.
    bool strikes(double rate, const std::string& kind);

  private:
    simulate::Chance& chance_;
    std::map<std::string, double> owed_;
};

class Hands {
  public:
    Hands(const Skill& skill, Luck& luck, simulate::Chance& chance)
        : skill_(skill), luck_(luck), chance_(chance) {}

    /// What was sent since the last call, by a MIDI pickup with a channel a string. Bars are played
    /// as the map has them a fifth of a second before they begin.
    practice::Played until(time::Seconds now, const roadmap::RoadMap& map);

    [[nodiscard]] const std::vector<MeantChange>& meant() const { return meant_; }

  private:
    void play(const roadmap::PlayedBar& bar, const roadmap::RoadMap& map);
    void change(const roadmap::PlayedBar& bar, const chart::Slot& slot,
                const roadmap::RoadMap& map);
    void strike_again(time::Ticks from, time::Ticks length, const roadmap::RoadMap& map);
    [[nodiscard]] Fate fate_of(MeantChange& meant, time::Bpm tempo, bool can_be_late,
                               bool can_be_missed);
    [[nodiscard]] std::optional<guitar::Shape> slip_of(const harmony::Chord& chord);
    [[nodiscard]] double fault_rate(const MeantChange& change, time::Bpm tempo,
                                    const StaysBad* bad) const;
    [[nodiscard]] const StaysBad* stays_bad(const MeantChange& change) const;
    [[nodiscard]] time::Seconds in_time(time::Seconds tolerance);
    [[nodiscard]] std::optional<time::Seconds> late(time::Ticks at, time::Ticks length,
                                                    const roadmap::RoadMap& map);
    void strike(time::Seconds at, const guitar::Shape& shape);

    Skill skill_;
    Luck& luck_;
    simulate::Chance& chance_;
    std::int64_t next_bar_ = 1;
    std::string chord_;  ///< that is due; empty: none
    std::optional<guitar::Shape> grip_;
    bool holds_it_ = true;  ///< the grip is the chord's that is due
    time::Seconds struck_{-1e9};
    PickupStrings strings_;
    std::vector<MeantChange> meant_;
};

}  // namespace compline::month
