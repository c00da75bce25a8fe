#pragma once

#include <compline/history/story.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::history {

// What to practise today: three things at most, each with its reason. Pure: it is told which day it
// is. Up to two things to work on: homework that is not done, the longest given first; then the
// weakest place that does not get better, in tunes played in the last four weeks; then two chords
// that are weak in several of these tunes. The evening ends with a whole tune once: the one that is
// most overdue, else the one that was worked on, else the one that was longest not played. Work
// starts at nine tenths of what was last clean, else of the usual tempo. Drills, and tunes whose
// chart cannot be read any more, are no tunes here.

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

/// How a place is worked on. From the third evening on without getting better each gets another
/// task than the last: two bars, slower, other grips, two bars ...
enum class Task {
    ladder,       ///< four bars, of which it is the second, from slow to fast
    two_bars,     ///< it and the bar before, alone
    slower,       ///< the four bars a fifth slower than usual
    other_grips,  ///< other grips for it, in the four bars: plan --alternatives
};
[[nodiscard]] std::string_view name_of(Task task);

enum class ThingKind { homework, place, transition, due, whole_tune, first_take };
[[nodiscard]] std::string_view name_of(ThingKind kind);

/// One thing to do.
struct Thing {
    ThingKind kind = ThingKind::place;
    KnownTune tune;  ///< none of a transition and of a first take
    Task task = Task::ladder;
    int from_bar = 1;
    int to_bar = 1;
    double from_bpm = 96;  ///< of a ladder, or the tempo; whole beats, but for homework's own
    /// Of a ladder: a tenth above what was last clean, at most the chart's tempo unless that was
    /// clean; the usual tempo where nothing was. Else as from_bpm.
    double to_bpm = 120;
    int times = 1;    ///< through; 0 of a ladder
    int minutes = 5;  ///< that it takes, about: one at least
    std::optional<PlaceStory> place;
    std::optional<TransitionStory> transition;  ///< over all tunes; `bars` is empty
    std::vector<std::string> titles;            ///< of the tunes in which it is weak: two at least
    std::string changes;                        ///< to be typed: "Dm7 | G7 | Dm7 | G7"
    std::optional<Homework> homework;
    int days_done = 0;        ///< of homework: on which the top was clean; two are wanted
    std::string last_played;  ///< evening; of a tune, where it was played
    std::string due;          ///< of a whole tune, where it was played whole
};

/// How far a piece of homework is: the evenings since it was given on which its top, or more, was
/// clean, two at most. Its bars with one more on either side will do. As on a ladder two times
/// through in a row are wanted, one of practice::Ladder::many_bars bars.
[[nodiscard]] std::vector<std::string> done_on(const Homework& homework,
                                               const std::vector<CleanRun>& runs);
inline constexpr int days_wanted = 2;

struct Today {
    std::string date;            ///< 2026-11-30 (a date: asserted)
    std::optional<int> minutes;  ///< none: as long as it takes
};

/// `tunes`: of one player; `homework`: all of it; what is clean today already comes again another
/// day. One thing at least: with nothing to go by, a first take. Where minutes are few, times
/// through are fewer and ladders shorter (homework's own is not), then things: the second, then
/// the whole tune.
[[nodiscard]] std::vector<Thing> advice(const std::vector<TuneHistory>& tunes,
                                        const std::vector<Homework>& homework, const Today& today);

}  // namespace compline::history
