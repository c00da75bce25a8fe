#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/roadmap/road_map.hpp>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace compline::report {

// One change in words, and its parts.

[[nodiscard]] bool was_struck(const assess::Change& change);

/// Nobody struck anything, or nothing that could be a chord or a line.
[[nodiscard]] bool heard_nothing(const assess::Assessment& assessment);

/// "laid out"; heard by sound "not struck": whether the chord before rang on, nobody knows.
[[nodiscard]] std::string_view laid_out_words(listen::HeardBy heard_by);

/// How many of those that count are as wanted.
template <typename Wanted>
[[nodiscard]] int count_certain(const std::vector<assess::Change>& changes, Wanted wanted) {
    return static_cast<int>(std::count_if(changes.begin(), changes.end(), [&](const auto& change) {
        return !change.uncertain && wanted(change);
    }));
}

/// "2nd time  bar 7 beat 3".
[[nodiscard]] std::string place_of(const assess::Change& change, bool with_time_through);

/// "A7 → Dm7"; "Dm7" where no chord comes before.
[[nodiscard]] std::string move_of(const assess::Change& change);

/// "  (the loop's seam)", "  (uncertain: sound broke off)"; mostly nothing.
[[nodiscard]] std::string remark_on(const assess::Change& change);

/// The beat or off-beat that a change landed on.
struct LandedOn {
    time::Ticks in_bar;  ///< from the bar line
    int bars_on = 0;     ///< after the change's own bar; -1: in the one before
};
[[nodiscard]] LandedOn landed_on(const assess::Change& change, const roadmap::RoadMap& map);

/// "2", "1&", "1 of the next bar".
[[nodiscard]] std::string landed_on_words(const assess::Change& change,
                                          const roadmap::RoadMap& map);

/// How many of all the times that a place was played.
struct HowOften {
    int cases = 1;
    int of = 1;
    /// "3 of 4 times" after what comes before; nothing where it was played once.
    [[nodiscard]] std::string in_words(const char* before) const;
};

/// "in on 2, 3 of 4 times; its neighbours where they are due".
[[nodiscard]] std::string wait_words(const assess::Change& change, const roadmap::RoadMap& map,
                                     HowOften how_often);

/// What is to be mended about its time: "late 62 ms", "late, 30 ms after 2&", "missed"; nothing
/// where nothing is.
[[nodiscard]] std::string timing_words(const assess::Change& change, const roadmap::RoadMap& map);

/// Words for each wrong tone, and for those that are missing.
[[nodiscard]] std::vector<std::string> tone_words_of(const assess::Change& change);

}  // namespace compline::report
