#pragma once

#include <compline/history/advice.hpp>
#include <compline/history/history.hpp>
#include <compline/history/story.hpp>
#include <compline/report/voicings.hpp>

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace compline::report {

// What weeks of practice came to, in words and as JSON: of all tunes, of one; what to do today;
// homework. Text is no wider than 80 columns, but for a file's name that is wider itself, ends with
// a newline and is safe for a terminal. Nothing here reads a clock or a disk: who asks says which
// day it is and where charts are. Shares are percent of the changes that were judged.

/// Who asks, and when.
struct WeeksAsked {
    std::string today;         ///< 2026-11-30
    std::string player;        ///< empty: not said
    bool name_player = false;  ///< the lines to type say whose they are
    std::string since;         ///< evenings before that do not count; empty: all do
    /// How the file of a tune's chart is typed where the player is; none: nobody knows it, or it is
    /// not there any more.
    std::function<std::optional<std::string>(const history::KnownTune& tune)> chart_word;
};

/// A tune's story, and what its words need besides.
struct TuneWeeks {
    history::TuneStory story;
    int bars = 0;               ///< of its form, without a coda; 0: not known
    bool sound_lately = false;  ///< of the newest evenings, some were heard by sound
    bool sound_ever = false;
};
[[nodiscard]] TuneWeeks weeks_of(const history::TuneHistory& tune, const std::string& since);

/// A piece of homework, and on which evenings its top was clean.
struct HomeworkSoFar {
    history::Homework homework;
    std::vector<std::string> clean_on;
    [[nodiscard]] bool is_done() const {
        return clean_on.size() >= static_cast<std::size_t>(history::days_wanted);
    }
};

struct AllWeeks {
    std::vector<TuneWeeks> tunes;  ///< the last played first
    std::vector<HomeworkSoFar> homework;
    std::vector<history::PlayerSeen> others;  ///< who has a history here too
};

/// Each tune in a few lines, drills behind them, homework that is open or was done within two
/// weeks, and who else is here.
[[nodiscard]] std::string weeks_text(const AllWeeks& weeks, const WeeksAsked& asked);

/// One tune: whether it gets better; by tempo; the places and transitions that are weakest, and a
/// line to type for the first.
[[nodiscard]] std::string tune_text(const TuneWeeks& tune,
                                    const std::vector<HomeworkSoFar>& homework,
                                    const WeeksAsked& asked);

/// "schema": "compline.history/1".
[[nodiscard]] std::string weeks_json(const AllWeeks& weeks, const WeeksAsked& asked);

/// What to do today, why, and the lines to type.
[[nodiscard]] std::string next_text(const std::vector<history::Thing>& things,
                                    const WeeksAsked& asked);
/// "schema": "compline.next/1".
[[nodiscard]] std::string next_json(const std::vector<history::Thing>& things,
                                    const WeeksAsked& asked);

/// A sheet for the pupil.
struct HomeworkSheet {
    history::Homework homework;
    chart::Form form;
    std::optional<Voicings> grips;  ///< for the bars
    Hand hand = Hand::right;
    bool is_new = true;  ///< else it had been given before
};
[[nodiscard]] std::string homework_text(const HomeworkSheet& sheet, const WeeksAsked& asked);
/// All of a player's, and who else has some.
[[nodiscard]] std::string homework_text(const std::vector<HomeworkSoFar>& all,
                                        const std::vector<std::string>& others,
                                        const WeeksAsked& asked);
/// "schema": "compline.homework/1".
[[nodiscard]] std::string homework_json(const std::vector<HomeworkSoFar>& all,
                                        const WeeksAsked& asked);

/// "bars 9-12 of Lantern Street, 96 to 120 bpm".
[[nodiscard]] std::string homework_name(const history::Homework& homework);

}  // namespace compline::report
