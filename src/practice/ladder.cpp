#include <compline/practice/in_time.hpp>
#include <compline/practice/ladder.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace compline::practice {

using roadmap::LadderStep;
using time::Bpm;

namespace {

constexpr double up = 0.04;
constexpr double down = 0.08;
constexpr int not_clean_wanted = 2;
constexpr int most_falls = 3;

bool in_time_and_right(const assess::Change& change) {
    return is_in_time(change) && change.has_right_tones();
}

double off(Bpm one, Bpm two) { return std::fabs(one.count() - two.count()); }

}  // namespace

Bpm moved(Bpm tempo, double by) {
    const double whole = std::round(tempo.count() * (1 + by));
    if (whole != std::round(tempo.count())) return Bpm(whole);
    return Bpm(whole + (by < 0 ? -1 : 1));
}

PlayedChanges played_changes(const assess::Assessment& assessment, int time_through) {
    using assess::Verdict;
    PlayedChanges played;
    for (const auto& change : assessment.changes) {
        if (change.time_through != time_through) continue;
        const bool laid_out = change.verdict == Verdict::laid_out;
        const bool missed = change.verdict == Verdict::missed;
        if (laid_out && change.optional) continue;
        ++played.due;
        if (change.uncertain) continue;
        played.missed += missed ? 1 : 0;
        played.struck += laid_out || missed ? 0 : 1;
        played.right += in_time_and_right(change) ? 1 : 0;
    }
    return played;
}

LadderStep::Judged judged_of(const PlayedChanges& played) {
    if (played.due == 0 || played.struck * 4 < played.due * 3)
        return LadderStep::Judged::too_little;
    const bool clean = played.missed == 0 && played.right * 10 >= played.struck * 9;
    return clean ? LadderStep::Judged::clean : LadderStep::Judged::not_clean;
}

Ladder::Ladder(const roadmap::AskedLadder& asked, int bars) : bars_(bars) {
    for (Bpm rung = asked.from; rung < asked.to; rung = moved(rung, up)) rungs_.push_back(rung);
    rungs_.push_back(asked.to);
}

void Ladder::stand_at(Bpm tempo) {
    const auto found = std::lower_bound(rungs_.begin(), rungs_.end(), tempo);
    at_ = static_cast<std::size_t>(found - rungs_.begin());
    if (found == rungs_.end() || *found != tempo) rungs_.insert(found, tempo);
    clean_ = 0;
    not_clean_ = 0;
    falls_.clear();
}

Bpm Ladder::beside(bool faster) const {
    if (faster) return at_ + 1 < rungs_.size() ? rungs_[at_ + 1] : moved(tempo(), up);
    return at_ > 0 ? rungs_[at_ - 1] : moved(tempo(), -up);
}

/// One rung down at least; of two that are as near the slower.
std::size_t Ladder::below() const {
    const Bpm wanted(tempo().count() * (1 - down));
    std::size_t nearest = 0;
    for (std::size_t rung = 1; rung < at_; ++rung) {
        if (off(rungs_[rung], wanted) < off(rungs_[nearest], wanted)) nearest = rung;
    }
    return nearest;
}

void Ladder::climb(LadderStep& step) {
    not_clean_ = 0;
    if (++clean_ < wanted()) return;
    clean_ = 0;
    over_ = at_ + 1 == rungs_.size();
    step.next = over_ ? LadderStep::Next::section : LadderStep::Next::faster;
    if (!over_) ++at_;
}

void Ladder::fall(LadderStep& step) {
    clean_ = 0;
    if (++not_clean_ < not_clean_wanted) return;
    not_clean_ = 0;
    over_ = ++falls_[tempo()] == most_falls;
    if (over_) {
        step.next = LadderStep::Next::enough;
    } else if (at_ > 0) {
        step.next = LadderStep::Next::slower;
        at_ = below();
    }
}

LadderStep Ladder::count(int time_through, const PlayedChanges& played) {
    assert(!over_);
    auto step = pass_over(time_through);
    step.judged = judged_of(played);
    step.due = played.due;
    step.struck = played.struck;
    step.right = played.right;
    if (step.judged == LadderStep::Judged::clean) climb(step);
    if (step.judged == LadderStep::Judged::not_clean) fall(step);
    step.next_tempo = tempo();
    return step;
}

LadderStep Ladder::pass_over(int time_through) const {
    LadderStep step;
    step.time_through = time_through;
    step.tempo = tempo();
    step.judged = LadderStep::Judged::not_whole;
    step.next_tempo = tempo();
    if (at_ + 1 < rungs_.size()) step.above = rungs_[at_ + 1];
    return step;
}

}  // namespace compline::practice
