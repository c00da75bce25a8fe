#pragma once

#include "hands.hpp"

#include <string>
#include <vector>

namespace compline::month {

/// A tune that a pupil works at, and how it goes there from evening to evening.
struct Work {
    std::string chart;      ///< its file's name
    double in_time = 0.8;   ///< share of the changes, on the first evening
    double an_evening = 0;  ///< what is gained with each, whatever is played then
    double tempo = 120;     ///< on the first evening
    double faster = 0;      ///< beats a minute gained with each evening
    double fastest = 400;   ///< and no more
    Comping comping = Comping::charleston;
    std::vector<chart::Passage> loops;  ///< what is practised out of it
    double how_often = 1;               ///< beside the other tunes
    int times = 2;                      ///< through, as a whole
    bool left_for_weeks = false;        ///< three weeks in the middle without it
};

/// A pupil as the teacher would describe one, with the rates that stand behind the words.
struct Pupil {
    std::string name;
    std::string words;
    std::vector<Work> works;
    double noise = 0.03;  ///< standard deviation of the share from evening to evening
    double wrong = 0.03;
    time::Seconds place{0.006};
    time::Seconds scatter{0.013};
    std::vector<StaysBad> stays_bad;  ///< two chords in every tune, a bar in the first one
    std::string drill;                ///< changes that are typed now and then
    std::string drill_key;
    bool once_hardly_plays = false;  ///< one take in which hardly anything is struck
};

/// One who gets better by ten points in eight evenings, one who does not change, one who is uneven
/// and in one tune gets worse.
[[nodiscard]] const std::vector<Pupil>& pupils();

/// The share of changes in time that is true of a tune on an evening, before any noise.
[[nodiscard]] double true_share(const Work& work, int evening);
[[nodiscard]] double true_tempo(const Work& work, int evening);

}  // namespace compline::month
