#include "../assess/median.hpp"
#include "clean_tempo.hpp"
#include "things.hpp"
#include "transitions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace compline::history {

namespace {

constexpr std::size_t fewest_tunes = 2;
constexpr int fewest_transition_evenings = 3;
constexpr double much_costlier = 2;
constexpr int bars_of_a_drill = 4;
constexpr double below_the_usual = 0.1;

double cost_each(const ChangeSums& sums) { return sums.of == 0 ? 0 : sums.cost / sums.of; }

/// Two chords lately, over all tunes.
struct SharedTransition {
    TransitionRows lately;
    PlayedTunes weak_in;
};

class SharedTransitions {
  public:
    explicit SharedTransitions(const PlayedTunes& tunes) : tunes_(tunes) {
        for (const auto* tune : tunes) add_tune(*tune);
        for (auto& [sound, one] : shared_) sort_by_date(one.lately.rows);
    }

    struct Drill {
        SharedTransition lately;
        TransitionRows all;
    };
    /// The costliest that is worth one.
    [[nodiscard]] std::optional<Drill> worst() const {
        std::optional<Drill> worst;
        Transitions all;
        for (const auto& [sound, one] : shared_) {
            const double least = worst ? cost_each(sums_of(worst->lately.lately.rows)) : 0;
            if (!is_costly(one) || cost_each(sums_of(one.lately.rows)) <= least) continue;
            if (all.empty()) all = over_all_weeks();
            auto& rows = all.at(sound).rows;
            sort_by_date(rows);
            if (trend_of(by_evening(rows)).course != Course::better)
                worst = Drill{one, all.at(sound)};
        }
        return worst;
    }

  private:
    void add_tune(const TuneHistory& tune) {
        Transitions lately;
        add_transitions(lately, tune, lately_from(tune));
        for (auto& [sound, transition] : lately) {
            auto& rows = transition.rows;
            sort_by_date(rows);
            auto& shared = shared_[sound];
            if (is_weak(rows)) shared.weak_in.push_back(&tune);
            add(total_, sums_of(rows));
            if (shared.lately.rows.empty()) shared.lately = {transition.from, transition.to, {}};
            shared.lately.rows.insert(shared.lately.rows.end(), rows.begin(), rows.end());
        }
    }

    [[nodiscard]] bool is_costly(const SharedTransition& one) const {
        const auto sums = sums_of(one.lately.rows);
        ChangeSums rest = total_;
        rest.of -= sums.of;
        rest.cost -= sums.cost;
        return one.weak_in.size() >= fewest_tunes &&
               evenings_of(one.lately.rows) >= fewest_transition_evenings &&
               cost_each(sums) >= much_costlier * cost_each(rest);
    }

    [[nodiscard]] Transitions over_all_weeks() const {
        Transitions all;
        for (const auto* tune : tunes_) add_transitions(all, *tune, "");
        return all;
    }

    const PlayedTunes& tunes_;
    std::map<Transitions::key_type, SharedTransition> shared_;
    ChangeSums total_;  ///< over all transitions
};

PlannedThing drill_of(const SharedTransitions::Drill& drill) {
    PlannedThing planned;
    auto& thing = planned.thing;
    thing.kind = ThingKind::transition;
    thing.from_bar = 1;
    thing.to_bar = bars_of_a_drill;
    std::vector<double> tempi;
    for (const auto* tune : drill.lately.weak_in) {
        tempi.push_back(usual_tempo(*tune));
        thing.titles.push_back(tune->tune.title);
    }
    const double usual = std::round(assess::median(std::move(tempi)));
    thing.from_bpm = slowed(usual, below_the_usual);
    thing.to_bpm = std::max(usual, thing.from_bpm + 1);
    thing.times = 0;
    thing.transition = transition_story(drill.all, "");
    thing.transition->bars.clear();
    thing.transition->lately = sums_of(drill.lately.lately.rows);
    thing.changes =
        fmt::format("{0} | {1} | {0} | {1}", thing.transition->from, thing.transition->to);
    return planned;
}

}  // namespace

std::optional<PlannedThing> weak_transition(const PlayedTunes& tunes) {
    const auto worst = SharedTransitions(tunes).worst();
    if (!worst) return std::nullopt;
    return drill_of(*worst);
}

}  // namespace compline::history
