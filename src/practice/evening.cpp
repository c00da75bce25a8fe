#include <compline/practice/evening.hpp>
#include <compline/practice/pedal.hpp>
#include <compline/practice/progress.hpp>
#include <compline/practice/rows.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace compline::practice {

using roadmap::RoadMap;
using time::Seconds;

namespace {

/// So far back a judge looks who is asked while the music goes on.
constexpr std::int64_t bars_looked_back = 128;
/// A chord has so long to come in before its verdict is said.
constexpr double beats_to_come_in = 2;
constexpr Seconds to_be_heard{0.1};

/// Notes after which it can be said which channel is which string: three or four small grips.
constexpr int notes_to_know_strings = 12;

constexpr roadmap::WhoPlays the_drums{true, false, false, false};
constexpr roadmap::WhoPlays the_bass{false, true, false, false};

}  // namespace

/// From a bar of one of its stretches on (from 0), cut short at its front, and what comes after it.
Evening::Going Evening::Going::rest(std::size_t stretch, int from_bar) const {
    const auto here = std::min(stretch, way.stretches.size() - 1);
    auto whole = way.stretches[here];
    if (here == 0) whole.passage.from = uncut;
    Going rest;
    rest.way.goes_on = way.goes_on;
    rest.way.held_ending = way.held_ending;
    auto& stretches = rest.way.stretches;
    auto first = whole;
    first.passage.from = std::max(first.passage.from, from_bar);
    const bool is_left = first.passage.from <= first.passage.to;
    if (is_left) stretches.push_back(first);
    stretches.insert(stretches.end(), way.stretches.begin() + static_cast<std::ptrdiff_t>(here) + 1,
                     way.stretches.end());
    // Who stays where nothing is left plays that part of the tune once more.
    const bool last_comes_again = way.goes_on && here + 1 == way.stretches.size();
    if (last_comes_again || stretches.empty()) stretches.push_back(whole);
    rest.uncut = is_left ? whole.passage.from : stretches.front().passage.from;
    return rest;
}

Evening::Evening(RoadMap map, TakeInfo opening, ScoreRequest rules, JudgedMeanwhile judged,
                 Reminders reminders)
    : asked_(std::move(map)),
      opening_(std::move(opening)),
      rules_(std::move(rules)),
      judged_(judged),
      reminders_(reminders),
      state_(asked_) {
    Orders none;
    begin(asked_, none);
    state_.take = 1;
}

Orders Evening::advance(Seconds now, const Played& news, std::span<const Command> commands) {
    Orders orders;
    const Seconds passed = now - state_.now;
    state_.now = now;
    const auto pedal = news.messages.empty() ? std::nullopt : pedal_among_music(opening_);
    for (const auto& timed : news.messages) {
        const bool is_music = !pedal || !pedal->is_meant_by(timed.message);
        notes_played_ += is_music && timed.message.starts_note() ? 1 : 0;
        if (timed.message.sets_parameter()) parameters_.push_back(timed);
    }
    played_.append(news);
    if (!commands.empty()) state_.refused.reset();
    for (const auto command : commands) {
        if (!state_.over) obey(command, orders);
    }
    wait_in_rubato(orders);
    climb(orders);
    look();
    remind(orders.finished ? Seconds(0) : passed);
    judge();
    return orders;
}

void Evening::obey(Command command, Orders& orders) {
    switch (command) {
        case Command::start_over:
            begin(asked_, orders);
            break;
        case Command::from_the_top:
            from_the_top(orders);
            break;
        case Command::pause:
            pause(orders);
            break;
        case Command::go_on:
            go_on(orders);
            break;
        case Command::slower:
            change_tempo(-step, Refusal::slowest, orders);
            break;
        case Command::faster:
            change_tempo(step, Refusal::fastest, orders);
            break;
        case Command::loop_here:
            loop_here(orders);
            break;
        case Command::leave_loop:
            leave_loop(orders);
            break;
        case Command::drums_off:
        case Command::drums_on:
            lay_out(the_drums, command == Command::drums_off, orders);
            break;
        case Command::bass_off:
        case Command::bass_on:
            lay_out(the_bass, command == Command::bass_off, orders);
            break;
        case Command::stop:
            stop(orders);
            break;
    }
}

/// Another take, with nothing decided yet but what its map brings.
void Evening::begin(RoadMap map, Orders& orders) {
    // Of one that was begun in this very moment nothing was played.
    const bool just_begun = orders.finished.has_value();
    auto finished = just_begun ? std::move(orders.finished) : take();
    const auto cue = chart::until_cue(map.asked().way);
    after_cue_ = cue.then;
    if (cue.then) {
        auto asked = map.asked();
        asked.way = cue.now;
        map = RoadMap(map.form(), asked, map.decided());
    }
    orders = {};
    orders.finished = std::move(finished);
    const int take = state_.take + (just_begun ? 0 : 1);
    state_ = State(std::move(map));
    state_.take = take;
    state_.now = -state_.map.lead();
    state_.tempo = state_.map.tempo();
    opening_.asked = state_.map.asked();
    opening_.asked.tempo = state_.tempo;
    opening_.asked.count_in_bars = state_.map.count_in_bars();
    opening_.decided.clear();
    played_ = {};
    parameters_.clear();
    notes_played_ = 0;
    judged_beat_ = 0;
    judged_times_ = 0;
    paused_from_.reset();
    rubato_.reset();
    earliest_ = 1;
    way_ = Going::whole(state_.map.asked().way);
    way_began_ = 1;
    tune_.reset();
    set_up_ladder();
    for (const auto& decision : state_.map.decided()) keep(decision, orders);
}

void Evening::from_the_top(Orders& orders) {
    auto asked = asked_.asked();
    asked.tempo = state_.tempo;
    std::vector<roadmap::Decision> decided;
    if (!state_.drums) decided.push_back({1, roadmap::LaysOut{the_drums, true}});
    if (!state_.bass) decided.push_back({1, roadmap::LaysOut{the_bass, true}});
    const bool drums = state_.drums;
    const bool bass = state_.bass;
    begin({asked_.form(), asked, decided}, orders);
    state_.drums = drums;
    state_.bass = bass;
}

/// The first bar that a change can count from; none where nothing comes that could be changed.
std::optional<std::int64_t> Evening::next_bar() const {
    const auto& map = state_.map;
    const auto place = map.place_at(state_.now + notice);
    // From bar 2 on: the count-in goes on as it began.
    const std::int64_t next = std::max(place.before ? 2 : place.number + 1, earliest_);
    if (place.over || next > map.bars().value_or(next)) return std::nullopt;
    return next;
}

/// In a pause all counts from where it will go on.
std::optional<std::int64_t> Evening::change_bar() const {
    return state_.paused ? paused_from_ : next_bar();
}

void Evening::keep(const roadmap::Decision& decision, Orders& orders) {
    opening_.decided.push_back({state_.now, decision});
    orders.decided.push_back(opening_.decided.back());
}

void Evening::decide(const roadmap::Decision& decision, Orders& orders) {
    state_.map = state_.map.with(decision);
    keep(decision, orders);
    if (orders.finished) return;  // the new take begins with all of this
    orders.follow_from =
        std::min(orders.follow_from.value_or(decision.from_bar), decision.from_bar);
}

void Evening::change_tempo(double by, Refusal at_the_end, Orders& orders) {
    const auto tempo = ladder_ ? ladder_->beside(by > 0) : moved(state_.tempo, by);
    const auto from = change_bar();
    if (tempo.count() < chart::slowest_bpm || tempo.count() > chart::fastest_bpm) {
        state_.refused = at_the_end;
    } else if (!from) {
        state_.refused = Refusal::ending;
    } else {
        decide({*from, roadmap::NewTempo{tempo}}, orders);
        state_.tempo = tempo;
        move_ladder(tempo, *from);
    }
}

void Evening::lay_out(const roadmap::WhoPlays& who, bool out, Orders& orders) {
    const auto& on = state_.map.bar_at(state_.map.position_at(state_.now)).on;
    const auto from = change_bar();
    if ((who.drums && !on.drums) || (who.bass && !on.bass)) {
        state_.refused = who.drums ? Refusal::no_drums : Refusal::no_bass;
        return;
    }
    if (!from) {
        state_.refused = Refusal::ending;
        return;
    }
    bool& plays = who.drums ? state_.drums : state_.bass;
    if (plays == !out) return;
    decide({*from, roadmap::LaysOut{who, out}}, orders);
    plays = !out;
}

void Evening::pause(Orders& orders) {
    if (state_.paused) return;
    const auto from = next_bar();
    if (!from) {
        state_.refused = Refusal::ending;
        return;
    }
    decide({*from, roadmap::Paused{}}, orders);
    state_.paused = true;
    paused_from_ = from;
}

/// The bar of the pause becomes as long as it was, in beats of the tempo with which it goes on, and
/// a bar to count in.
void Evening::go_on(Orders& orders) {
    if (!state_.paused) {
        give_cue(orders);
        return;
    }
    if (rubato_ && rubato_->is_last) {
        stop(orders);
        return;
    }
    const auto& map = state_.map;
    const auto paused = *paused_from_;
    const auto last = map.bar(paused - 1);
    const Seconds began = map.tempi().time_of(last.end());
    const auto way = way_after_pause(last);
    const auto meter = map.form().bar(way.way.stretches.front().passage.from).meter;
    const double counted_in = time::Beats(meter.bar()).count();
    const Seconds waited = std::max(state_.now, began) + notice - began;
    const int beats = static_cast<int>(std::ceil(waited / state_.tempo.beat()) + counted_in);
    decide({paused, roadmap::Waited{beats, way.way}}, orders);
    earliest_ = paused + 1;
    go_way(way, last.time_through + 1);
    state_.paused = false;
    state_.rubato.reset();
    rubato_.reset();
    paused_from_.reset();
}

/// Which stretch of the way (from 0) a time through is; of one before it, the first is to come.
std::size_t Evening::stretch_of(int time_through) const {
    return static_cast<std::size_t>(std::max(0, time_through - way_began_));
}

void Evening::go_way(const Going& way, int time_through) {
    way_ = way;
    way_began_ = time_through;
}

void Evening::loop_here(Orders& orders) {
    const auto from = state_.paused ? std::nullopt : next_bar();
    if (!from) {
        state_.refused = Refusal::ending;
        return;
    }
    const auto& map = state_.map;
    auto here = map.bar_at(map.position_at(state_.now));
    while (here.waits) here = map.bar(here.number + 1);
    auto row = row_of(map.form(), here.in_form());
    const bool begins_row = here.in_form() == row.from && here.number > 1;
    if (begins_row && !map.bar(here.number - 1).waits) {
        row = row_of(map.form(), map.bar(here.number - 1).in_form());
    }
    if (!tune_) tune_ = {way_, stretch_of(here.time_through)};
    const auto loop = chart::Way::of(row, std::nullopt);
    const int begun = map.bar(*from - 1).time_through;
    decide({*from, roadmap::NewWay{loop}}, orders);
    go_way(Going::whole(loop), begun + 1);
    state_.loop = row;
    leave_ladder();
}

/// No jump is heard: where the loop would begin again, the tune goes on.
void Evening::leave_loop(Orders& orders) {
    if (!state_.loop || !tune_) {
        state_.refused = Refusal::not_looping;
        return;
    }
    const auto from = state_.paused ? std::nullopt : next_bar();
    if (!from) {
        state_.refused = Refusal::ending;
        return;
    }
    const auto before = state_.map.bar(*from - 1);
    const int next = before.waits ? state_.map.bar(*from).in_form() : before.in_form() + 1;
    const auto way = tune_->way.rest(tune_->stretch, next);
    decide({*from, roadmap::NewWay{way.way}}, orders);
    go_way(way, before.time_through + 1);
    state_.loop.reset();
    tune_.reset();
    leave_ladder();
}

/// The time through that was begun is the last.
void Evening::stop(Orders& orders) {
    const auto& map = state_.map;
    const int begun = std::max(1, times_begun(map, state_.now));
    const bool is_last = map.times_through() && begun >= *map.times_through();
    if (!is_last && !state_.paused) {
        const roadmap::Decision stopped{map.first_bar(begun + 1), roadmap::Stopped{}};
        // What was decided for later does not come about.
        std::erase_if(opening_.decided, [&](const TimedDecision& decided) {
            return decided.decision.from_bar > stopped.from_bar;
        });
        state_.map = map.first(begun);
        keep(stopped, orders);
    }
    state_.over = true;
    orders.stop = true;
}

void Evening::look() {
    const auto& map = state_.map;
    state_.place = map.place_at(state_.now);
    state_.until_cue = is_in_vamp();
    if (state_.over) return;
    state_.times_over = std::max(state_.times_over, times_over(map, state_.now));
    state_.over = !state_.paused && is_finished(map, state_.now);
}

/// So many times through, the last of them as far as they have been played.
Report Evening::judged_so_far(int times) const {
    const auto& map = state_.map;
    const auto from =
        std::max(map.first_bar(std::max(1, times - 2)), state_.place.number - bars_looked_back);
    const Seconds begin = from <= 1 ? Seconds(-1e9) : map.tempi().time_of(map.bar(from).start);
    return judge_so_far(map.first(times), take_from(begin), rules_, begin);
}

/// Once a beat where verdicts are wanted, else when a time through is over; what is far back has
/// been said, and is not judged again and again.
void Evening::judge() {
    const auto& map = state_.map;
    const auto beat =
        static_cast<std::int64_t>(std::floor(map.tempi().beat_at(state_.now).count()));
    const bool through = state_.times_over > judged_times_;
    const bool now = judged_ == JudgedMeanwhile::every_change && beat > judged_beat_;
    const bool tells_strings = !state_.strings && notes_played_ >= notes_to_know_strings;
    if (judged_ == JudgedMeanwhile::nothing || !(through || now || tells_strings)) return;
    judged_beat_ = std::max(judged_beat_, beat);
    judged_times_ = state_.times_over;
    state_.lately = judged_so_far(std::max(1, times_begun(map, state_.now)));
    if (notes_played_ >= notes_to_know_strings) state_.strings = state_.lately->strings;
    if (judged_ != JudgedMeanwhile::every_change) return;
    const auto wait = map.tempo_at(map.position_at(state_.now)).beat() * beats_to_come_in;
    const auto& assessment = state_.lately->assessment;
    for (std::size_t i = 0; i < assessment.settled; ++i) {
        const auto& change = assessment.changes[i];
        const bool was_said = !state_.verdicts.empty() && change.at <= state_.verdicts.back().at;
        if (change.at + wait + to_be_heard > state_.now) break;
        if (!was_said) state_.verdicts.push_back(change);
    }
}

/// What was played from a moment on. Of what came before only how the instrument is set counts: a
/// registered parameter is sent once.
Take Evening::take_from(Seconds begin) const {
    // A strum ahead of the bar line is meant for it.
    const auto& map = state_.map;
    const auto from = begin - map.tempo_at(map.position_at(begin)).beat();
    const auto& messages = played_.messages;
    const auto first =
        std::partition_point(messages.begin(), messages.end(),
                             [&](const midi::TimedMessage& timed) { return timed.at < from; });
    Take take;
    for (const auto& timed : parameters_) {
        if (timed.at < from) take.messages.push_back(timed);
    }
    take.messages.insert(take.messages.end(), first, messages.end());
    take.interruptions = played_.interruptions;
    take.cable = played_.cable;
    take.end = std::max(state_.now, Seconds(0));
    take.info = opening_;
    return take;
}

Take Evening::take() const {
    Take take;
    take.messages = played_.messages;
    take.pedal = played_.pedal;
    take.interruptions = played_.interruptions;
    take.cable = played_.cable;
    take.end = std::max(state_.now, Seconds(0));
    take.info = opening_;
    take.info->ended = true;
    return take;
}

}  // namespace compline::practice
