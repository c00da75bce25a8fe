#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/chart/form.hpp>
#include <compline/roadmap/decision.hpp>
#include <compline/roadmap/ladder.hpp>
#include <compline/roadmap/road_map.hpp>

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <vector>

namespace compline::practice {

// A ladder: the same bars over and over, faster when they are clean. A policy and nothing else:
// results of times through go in, what comes next goes out. It reads no clock and hears nothing.

/// A tempo by so much slower or faster, in whole beats a minute, as a musician names it: one at
/// least.
[[nodiscard]] time::Bpm moved(time::Bpm tempo, double by);

/// The changes of a time through, as far as they are judged. One that the chart leaves to the
/// player and that he left out is not due; of one that is uncertain (sound was lost) it is not
/// known whether it was struck.
struct PlayedChanges {
    int due = 0;
    int struck = 0;  ///< or held
    int right = 0;   ///< of these, in time and, where tones were heard, with the right ones
    int missed = 0;
};
[[nodiscard]] PlayedChanges played_changes(const assess::Assessment& assessment, int time_through);

/// Clean: three quarters of the changes or more were struck or held, nine in ten of these in time
/// and right, none missed. With less known to be struck it does not count (common practice, no
/// source).
[[nodiscard]] roadmap::LadderStep::Judged judged_of(const PlayedChanges& played);

/// Its rungs are the tempo it begins with, each next one 4 % faster (in whole beats a minute, one
/// at least), and the top. Two clean times through in a row lead to the next rung, of bars that are
/// many one is enough; from the top, to the section around them. Two in a row that are not clean
/// lead down, to the rung nearest to 8 % slower: so a fall leads to tempi that were played already,
/// and to the one it fell from again (2026-11-30). On the lowest rung it stays, and that is a fall
/// too. Three falls from one tempo are enough for today. What does not count is as if it had not
/// been played.
class Ladder {
  public:
    /// Of so many bars or more one clean time through is enough.
    static constexpr int many_bars = 24;

    Ladder(const roadmap::AskedLadder& asked, int bars);

    /// By hand: to a tempo, which is a rung from then on; one beyond an end is the new end. All
    /// that was counted is forgotten.
    void stand_at(time::Bpm tempo);

    /// What comes after a time through. Nothing may be counted once that is section or enough
    /// (asserted).
    [[nodiscard]] roadmap::LadderStep count(int time_through, const PlayedChanges& played);
    /// ... after one that does not count.
    [[nodiscard]] roadmap::LadderStep pass_over(int time_through) const;

    [[nodiscard]] time::Bpm tempo() const { return rungs_[at_]; }
    [[nodiscard]] bool is_over() const { return over_; }
    /// Clean times through in a row that are wanted.
    [[nodiscard]] int wanted() const { return bars_ >= many_bars ? 1 : 2; }
    /// The rung above or below; beyond the ends 4 % further.
    [[nodiscard]] time::Bpm beside(bool faster) const;

  private:
    [[nodiscard]] std::size_t below() const;
    void climb(roadmap::LadderStep& step);
    void fall(roadmap::LadderStep& step);

    int bars_;
    std::vector<time::Bpm> rungs_;  ///< ascending
    std::size_t at_ = 0;
    int clean_ = 0;      ///< in a row
    int not_clean_ = 0;  ///< in a row
    std::map<time::Bpm, int> falls_;
    bool over_ = false;
};

/// How it goes on from a bar, with which a time through would begin, in another tempo: a bar of
/// sticks in it, then a way.
[[nodiscard]] std::vector<roadmap::Decision> with_sticks(const chart::Form& form,
                                                         std::int64_t from_bar, time::Bpm tempo,
                                                         const chart::Way& way);

/// What comes behind a clean top: once through the section in which a loop begins, which ends as
/// the tune does where it is all of it.
[[nodiscard]] chart::Way once_around(const chart::Form& form, chart::Passage loop);

/// A ladder that nobody plays to, as a band plays it to listeners: two times through each rung,
/// then once through the section. `asked.ladder` must be there (asserted).
[[nodiscard]] roadmap::RoadMap climbed(const chart::Form& form, roadmap::Asked asked);

/// What a ladder came to, as its steps tell.
struct LadderCourse {
    struct Rung {
        time::Bpm tempo{120};
        int times = 0;  ///< through that counted, or had too little struck
        int clean = 0;
        /// The best of them: changes in time and right, of those that were due.
        int right = 0;
        int due = 0;
    };
    roadmap::AskedLadder asked;
    std::vector<Rung> rungs;         ///< that were played, from slow to fast
    std::optional<time::Bpm> clean;  ///< the fastest that led further up
    bool is_done = false;            ///< the top was clean
    bool was_enough = false;         ///< for today

    /// Where to begin next: nine tenths of that tempo, in whole beats; as before, where there is
    /// none.
    [[nodiscard]] time::Bpm next_start() const;
};
[[nodiscard]] LadderCourse ladder_course(const roadmap::AskedLadder& asked,
                                         std::span<const roadmap::LadderStep> steps);

}  // namespace compline::practice
