#pragma once

#include "hands.hpp"

#include <compline/practice/take.hpp>

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace compline::month {

/// What is practised, as a player has it.
struct Tune {
    std::string file;  ///< of the chart; empty: a few changes that were typed
    std::string text;
    chart::Form form;
};
[[nodiscard]] Tune load_tune(const std::filesystem::path& chart);
/// "Dm7 | G7 | Cmaj7 | %" in a key, as `practice --changes` makes a chart of it.
[[nodiscard]] Tune typed_changes(const std::string& changes, const std::string& key);

enum class What { tune, loop, ladder, drill };
[[nodiscard]] std::string_view name_of(What what);

/// What is asked of one take.
struct AskedTake {
    What what = What::tune;
    chart::Passage bars;  ///< a part of the form, or all of it
    time::Bpm tempo{120};
    int times = 1;               ///< through; of a ladder none
    bool until_stopped = false;  ///< it goes on, and is stopped after so many times
    std::optional<roadmap::AskedLadder> ladder;
};

struct MadeTake {
    practice::Take take;
    roadmap::RoadMap map;  ///< as it was asked for
    std::vector<MeantChange> meant;
};

/// Plays a take to its end, as an evening goes: a ladder decides by what it hears, and nobody
/// climbs one for longer than six minutes. Date and player are not said yet.
[[nodiscard]] MadeTake play(const Tune& tune, const AskedTake& asked, const Skill& skill,
                            Luck& luck, simulate::Chance& chance);

/// The take as a file, of a player and a date.
[[nodiscard]] std::vector<std::uint8_t> to_bytes(const MadeTake& take, const std::string& player,
                                                 const std::string& made);

}  // namespace compline::month
