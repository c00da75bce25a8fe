#pragma once

// The short tune again, by somebody without a MIDI pickup: only the guitar's sound was heard.

#include "report/rehearsed.hpp"

#include <compline/practice/scoring.hpp>

namespace compline::tests {

/// What a detector of onsets makes of strums: a note for each, as loud as the strum.
inline std::vector<midi::TimedMessage> onsets_of(const std::vector<Strum>& strums,
                                                 const roadmap::RoadMap& map) {
    std::vector<midi::TimedMessage> messages;
    for (const auto& strum : strums) {
        const auto in_bar = static_cast<std::int64_t>((strum.beat - 1) * 960);
        const auto at = map.time_of(map.bar(strum.bar).start + time::Ticks(in_bar)) +
                        time::from_milliseconds(strum.late_ms);
        messages.push_back({at, midi::note_on(1, 60, 80)});
        messages.push_back({at + time::from_milliseconds(30), midi::note_off(1, 60)});
    }
    return messages;
}

/// A take of ours of the eight bars, heard by sound.
inline practice::Take take_by_sound(const std::vector<Strum>& strums, int times = 1) {
    const auto map = through(eight_bars(), times);
    practice::Take take;
    take.messages = onsets_of(strums, map);
    take.end = map.time_of(map.end());
    take.info = practice::info_of(map, eight_bars_text);
    take.info->heard = practice::HeardBy::sound;
    take.info->ended = true;
    return take;
}

inline practice::Report report_by_sound(const std::vector<Strum>& strums) {
    auto report = practice::hear_and_judge(eight_bars(), take_by_sound(strums), {});
    report.chart_file = "charts/eight-bars.yaml";
    return report;
}

/// Slow into bars 2 and 4, a push into bar 5; bar 7 is not struck.
inline std::vector<Strum> slow_hand() {
    return {
        {1, 1, "", 6},   {1, 2.5, "", 9},  //
        {2, 1, "", 88},  {2, 2.5, "", 7},  //
        {3, 1, "", -4},  {3, 3, "", 5},    // Dm7, F6
        {4, 1, "", 93},  {4, 4.5, "", 2},  // Bb7 an off-beat early: a push
        {5, 3, "", -12},                   //
        {6, 1, "", 8},   {6, 3, "", 5},    //
        {8, 1, "", -7},  {8, 3, "", 12},
    };
}

}  // namespace compline::tests
