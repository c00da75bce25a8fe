#include <compline/practice/evening.hpp>
#include <compline/practice/rows.hpp>

namespace compline::practice {

// What waits for the player: a part that comes again until the cue, and what is out of time.

/// From the row that was being played on; behind a rubato with what follows it.
Evening::Going Evening::way_after_pause(const roadmap::PlayedBar& last) const {
    if (rubato_) return way_.rest(stretch_of(rubato_->time_through), rubato_->next_bar);
    // Of what a wait was to lead to nothing was played.
    if (last.in_form() == 0) return way_;
    return way_.rest(stretch_of(last.time_through), row_of(state_.map.form(), last.in_form()).from);
}

/// In the last stretch of the tune's way, no loop of the player's.
bool Evening::is_in_vamp() const {
    if (!after_cue_ || tune_ || state_.paused || state_.place.before) return false;
    return stretch_of(state_.place.time_through) + 1 >= way_.way.stretches.size();
}

/// What follows begins with the next time through that is far enough ahead.
void Evening::give_cue(Orders& orders) {
    if (!is_in_vamp()) return;
    const auto& map = state_.map;
    const int now = map.place_at(state_.now + notice).time_through;
    const auto cue = chart::until_cue(*after_cue_);
    after_cue_ = cue.then;
    decide({map.first_bar(now + 1), roadmap::NewWay{cue.now}}, orders);
    go_way(Going::whole(cue.now), now + 1);
}

/// What is out of time is a pause that the tune asks for.
void Evening::wait_in_rubato(Orders& orders) {
    if (state_.over || state_.paused) return;
    const auto from = next_bar();
    if (!from) return;
    const auto& map = state_.map;
    const auto first = map.bar(*from);
    if (!first.written->rubato || map.bar(*from - 1).written->rubato) return;
    auto last = first;
    while (last.number < map.bars().value_or(last.number + 1)) {
        const auto next = map.bar(last.number + 1);
        if (!next.written->rubato || next.time_through != first.time_through) break;
        last = next;
    }
    rubato_ =
        Rubato{first.time_through, last.in_form() + 1, map.bars() && last.number == *map.bars()};
    decide({*from, roadmap::Paused{}}, orders);
    state_.paused = true;
    state_.rubato = chart::Passage{first.in_form(), last.in_form()};
    paused_from_ = from;
}

}  // namespace compline::practice
