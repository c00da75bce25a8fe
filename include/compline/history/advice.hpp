#pragma once

#include <compline/history/story.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::history {

// What to practise today: three things at most, each with its reason. Pure: it is told which day it
// is. In this order: homework that is not done; the weakest place that does not get better; two
// chords that are weak in several tunes; a tune that is due again. Work on a place starts at 90 %
// of what was clean, and the evening ends with a whole tune once.

/// A day on which something is due again: the day after it was first played; from then on a clean
/// evening doubles the days (2, 4 ... 32), one that is not halves them (common practice after the
/// spacing effect: Cepeda and others 2006, from memory).
class Spacing {
  public:
    static constexpr int longest = 32;  ///< days
    /// Evenings come in order.
    void played(const std::string& evening, bool clean);
    [[nodiscard]] int days() const { return days_; }
    [[nodiscard]] const std::string& last() const { return last_; }
    [[nodiscard]] std::string due() const;  ///< empty: never played

  private:
    int days_ = 1;
    bool begun_ = false;
    std::string last_;
};

/// Of a tune: the evenings on which it was played whole. Such an evening is clean when the whole
/// tune was, at nine tenths at least of the fastest tempo that had been clean before.
[[nodiscard]] Spacing spacing_of(const TuneHistory& tune);

/// How a place is worked on: another way each time it does not get better.
enum class Task {
    ladder,       ///< its four bars, from slow to fast
    two_bars,     ///< it and the bar before, alone
    slower,       ///< a fifth slower than usual
    other_grips,  ///< other grips for it: plan --alternatives
};
[[nodiscard]] std::string_view name_of(Task task);

enum class ThingKind { homework, place, transition, due, whole_tune, first_take };
[[nodiscard]] std::string_view name_of(ThingKind kind);

/// One thing to do.
struct Thing {
    ThingKind kind = ThingKind::place;
    KnownTune tune;  ///< none of a transition
    Task task = Task::ladder;
    int from_bar = 1;
    int to_bar = 1;
    double from_bpm = 96;  ///< of a ladder, or the tempo
    double to_bpm = 120;   ///< of a ladder; else as from_bpm
    int times = 1;         ///< through; 0 of a ladder
    int minutes = 5;       ///< that it takes, about
    std::optional<PlaceStory> place;
    std::optional<TransitionStory> transition;  ///< over all tunes; `bars` is empty
    std::vector<std::string> titles;            ///< of the tunes in which it is weak
    std::string changes;                        ///< to be typed: "Dm7 | G7 | Dm7 | G7"
    std::optional<Homework> homework;
    int days_done = 0;  ///< of homework: on which the top was clean; two are wanted
    std::string last_played;
    std::string due;
};

/// How far a piece of homework is: the evenings on which its top was clean, two at most.
[[nodiscard]] std::vector<std::string> done_on(const Homework& homework,
                                               const std::vector<CleanRun>& runs);
inline constexpr int days_wanted = 2;

struct Today {
    std::string date;            ///< 2026-11-30
    std::optional<int> minutes;  ///< none: as long as it takes
};

/// `tunes`: of one player; `homework`: all of it.
[[nodiscard]] std::vector<Thing> advice(const std::vector<TuneHistory>& tunes,
                                        const std::vector<Homework>& homework, const Today& today);

}  // namespace compline::history
