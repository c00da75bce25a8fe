#include <compline/practice/evening.hpp>
#include <compline/practice/ladder.hpp>

#include <algorithm>
#include <utility>

namespace compline::practice {

// The ladder of an evening: when a time through is counted, and what comes of it.

using roadmap::LadderStep;
using time::Seconds;

namespace {

/// So long before a time through ends it is counted, or a beat where that is longer: a decision
/// counts a quarter of a second ahead, and a program that stands still for another quarter is
/// thought to have been stopped (live::Rig). With a twentieth of a second in place of that quarter
/// a busy machine's ladder lost a time through now and then (2026-11-30).
constexpr Seconds counted_ahead = Evening::notice + Seconds(0.25);

}  // namespace

/// It stands where the take begins; below it is the way of the tune, for who leaves the loop.
void Evening::set_up_ladder() {
    ladder_.reset();
    ladder_from_ = 1;
    ladder_seen_ = 0;
    const auto& map = state_.map;
    if (!map.asked().ladder) return;
    const auto loop = map.asked().way.stretches.front().passage;
    ladder_.emplace(*map.asked().ladder, loop.bars());
    ladder_->stand_at(map.tempo());
    state_.loop = loop;
    tune_ = {Going::whole(chart::Way::of(map.form().whole(), std::nullopt)), 0};
}

/// Who left the loop has left the ladder.
void Evening::leave_ladder() {
    if (!ladder_) return;
    ladder_.reset();
    state_.remarks.push_back(Remark::off_the_ladder);
}

/// By hand, from a bar on: what was counted before it is forgotten, and the time through that it
/// comes in the midst of, or behind, does not count.
void Evening::move_ladder(time::Bpm tempo, std::int64_t from_bar) {
    if (!ladder_) return;
    ladder_->stand_at(tempo);
    ladder_from_ = state_.map.bar(from_bar - 1).time_through + 1;
}

/// The time through that is played, once it is about to end.
void Evening::climb(Orders& orders) {
    if (!ladder_ || state_.over || state_.paused) return;
    const auto& map = state_.map;
    const auto place = map.place_at(state_.now);
    const int number = place.time_through;
    if (place.before || place.over || place.bar == 0 || number <= ladder_seen_) return;
    const auto passage = map.way().stretch(number).passage;
    const auto next = map.first_bar(number) + passage.bars();
    const auto last = map.bar(next - 1);
    const Seconds beat = last.tempo.beat() * time::Beats(last.meter().beat()).count();
    const Seconds ends = map.tempi().time_of(last.end());
    if (state_.now < ends - std::max(beat, counted_ahead)) return;
    ladder_seen_ = number;
    if (next_bar() != next) return;  // held up for so long, it can change nothing there any more
    const bool counts = number >= ladder_from_ && passage == state_.loop;
    const auto taken =
        counts ? ladder_->count(number, played_changes(judged_so_far(number).assessment, number))
               : ladder_->pass_over(number);
    take_step(taken, next, orders);
}

void Evening::take_step(const LadderStep& taken, std::int64_t from_bar, Orders& orders) {
    state_.ladder.push_back(taken);
    state_.map = state_.map.with({from_bar, taken});
    keep({from_bar, taken}, orders);  // nothing else is played for it: the band need not know
    if (taken.next == LadderStep::Next::again) return;
    const auto loop = *state_.loop;
    if (ladder_->is_over()) {
        ladder_.reset();
        state_.loop.reset();
        tune_.reset();
    }
    if (taken.next == LadderStep::Next::enough) {
        decide({from_bar, roadmap::Stopped{}}, orders);
        return;
    }
    const auto& form = state_.map.form();
    const auto way = taken.next == LadderStep::Next::section ? once_around(form, loop)
                                                             : chart::Way::of(loop, std::nullopt);
    for (const auto& decision : with_sticks(form, from_bar, taken.next_tempo, way)) {
        decide(decision, orders);
    }
    // Sticks that have begun to count in go on as they began, as at the beginning.
    earliest_ = from_bar + 2;
    go_way(Going::whole(way), taken.time_through + 1);
    state_.tempo = taken.next_tempo;
}

/// What the hand is told, a line each.
void Evening::remind(Seconds passed) {
    if (reminders_ == Reminders::off) return;
    const auto& place = state_.place;
    const auto passage = state_.map.way().stretch(place.time_through).passage;
    const bool whole = passage == state_.map.form().whole();
    const auto loop = whole ? state_.loop : std::optional(passage);
    const bool music = !place.before && !place.over && place.bar != 0;
    const auto due = rest_.pass(passed, music, loop);
    if (due.from_loop) state_.remarks.push_back(Remark::rest_from_loop);
    if (due.from_evening) state_.remarks.push_back(Remark::rest_from_evening);
}

}  // namespace compline::practice
