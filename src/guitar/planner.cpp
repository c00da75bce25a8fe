#include "refusals.hpp"
#include "several_ways.hpp"
#include "stops.hpp"
#include "work_count.hpp"

#include <compline/guitar/planning.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>

namespace compline::guitar {

namespace {

class Planner {
  public:
    Planner(Tune tune, Echoes echoes, chart::Passage passage, time::Bpm tempo,
            const Fretboard& fretboard, std::optional<int> position, WorkCount& work)
        : tune_(std::move(tune)),
          echoes_(std::move(echoes)),
          passage_(passage),
          tempo_(tempo),
          fretboard_(fretboard),
          position_(position),
          work_(work) {}

    std::vector<VoicingPlan> plan(int count) {
        if (tune_.stops.empty()) return {in_words({})};
        work_.expect(least_searches());
        std::vector<VoicingPlan> plans;
        for (const auto& way :
             position_ ? ways_in_position(count) : best_ways(table_, tune_.stops, count, echoes_)) {
            plans.push_back(in_words(way.ids));
        }
        return plans;
    }

  private:
    /// A look ahead, the exact walk, and a few more to close the ring: found by counting.
    [[nodiscard]] std::int64_t least_searches() const {
        std::int64_t grips = 0;
        for (const auto& stop : tune_.stops) grips += static_cast<std::int64_t>(stop.ids.size());
        return 4 * grips;
    }

    /// The best ways with all fretted notes within so many frets, wherever on the neck.
    [[nodiscard]] std::vector<WayRound> ways_in_position(int count) const {
        std::vector<WayRound> ways;
        std::size_t furthest = 0;
        for (int low = 1; low + *position_ - 1 <= std::max(fretboard_.frets(), *position_); ++low) {
            auto stops = tune_.stops;
            const auto stuck = within(low, stops);
            furthest = std::max(furthest, stuck);
            if (stuck < stops.size()) continue;
            for (auto& way : best_ways(table_, stops, count, echoes_))
                ways.push_back(std::move(way));
        }
        if (ways.empty()) {
            const auto& change = tune_.chords[furthest].change;
            throw text::BadInput(fmt::format(
                "{}, {}: {} frets are too few for this chord and those before it: allow "
                "a wider position, or leave it out",
                place_name(change), change.to.symbol(), *position_));
        }
        std::stable_sort(ways.begin(), ways.end(),
                         [](const WayRound& a, const WayRound& b) { return a.cost < b.cost; });
        // One window's best may lie in the next window too.
        std::vector<WayRound> distinct;
        for (const auto& way : ways) {
            const bool there =
                std::any_of(distinct.begin(), distinct.end(),
                            [&](const WayRound& other) { return have_same_shapes(way, other); });
            if (!there && distinct.size() < static_cast<std::size_t>(count))
                distinct.push_back(way);
        }
        return distinct;
    }

    [[nodiscard]] bool have_same_shapes(const WayRound& a, const WayRound& b) const {
        for (std::size_t i = 0; i < tune_.stops.size(); ++i) {
            const auto& candidates = *tune_.stops[i].candidates;
            if (candidates.shape_key(a.ids[i]) != candidates.shape_key(b.ids[i])) return false;
        }
        return true;
    }

    /// Leaves the grips within a window; gives the first stop that has none.
    [[nodiscard]] std::size_t within(int low, std::vector<Stop>& stops) const {
        const int high = low + *position_ - 1;
        // Once for all places where a chord has the same grips.
        std::map<std::pair<const Ids::List*, const PackedGrip*>, Ids> known;
        for (std::size_t i = 0; i < stops.size(); ++i) {
            auto& stop = stops[i];
            const auto outside = [&](std::uint32_t id) {
                const auto& grip = stop.candidates->packed(id);
                for (std::size_t n = 0; n < PackedGrip::fingers; ++n) {
                    const bool down = grip.cover[n] != 0;
                    if (down && (grip.fret[n] < low || grip.fret[n] > high)) return true;
                }
                return false;
            };
            if (tune_.chords[i].pinned) continue;
            const std::pair same(&stop.ids.list(), &stop.candidates->packed(0));
            const auto before = known.find(same);
            if (before == known.end()) {
                stop.ids.keep_if(std::not_fn(outside));
                known.emplace(same, stop.ids);
            } else {
                stop.ids = before->second;
            }
            if (stop.ids.empty()) return i;
        }
        return stops.size();
    }

    [[nodiscard]] VoicingPlan in_words(const std::vector<std::uint32_t>& ids) const {
        VoicingPlan plan;
        plan.fretboard = fretboard_;
        plan.passage = passage_;
        plan.tempo = tempo_;
        for (std::size_t i = 0; i < ids.size(); ++i) {
            const auto& item = tune_.chords[i];
            const auto& candidates = *tune_.stops[i].candidates;
            PlannedVoicing voicing{item.change, item.palette, candidates.grip(ids[i])};
            const bool stays = item.goes_on && plan.voicings.back().grip == voicing.grip;
            if (stays) {
                plan.voicings.back().change.length += item.change.length;
                continue;
            }
            voicing.goes_on = item.goes_on;
            voicing.pinned = item.pinned;
            voicing.sound = candidates.cost(ids[i]);
            const std::size_t before = (i + ids.size() - 1) % ids.size();
            voicing.reach = packed_reach(tune_.stops[before].candidates->packed(ids[before]),
                                         candidates.packed(ids[i]), tune_.stops[i].way_in);
            plan.voicings.push_back(voicing);
        }
        for (std::size_t i = 0; i < plan.voicings.size(); ++i) {
            const auto n = plan.voicings.size();
            plan.moves.push_back(move_between(fretboard_, plan.voicings[(i + n - 1) % n].grip,
                                              plan.voicings[i].grip));
        }
        return plan;
    }

    Tune tune_;
    Echoes echoes_;
    chart::Passage passage_;
    time::Bpm tempo_;
    const Fretboard& fretboard_;
    std::optional<int> position_;
    WorkCount& work_;
    FingerTable table_{fretboard_.strings(), fretboard_.frets(), &work_};
};

/// "2000 bars with 2000 changes and 50211 grips a change".
std::string what_there_is(chart::Passage passage, const Tune& tune) {
    std::size_t grips = 0;
    for (const auto& stop : tune.stops) grips += stop.ids.size();
    const auto changes = std::max<std::size_t>(tune.stops.size(), 1);
    return fmt::format("{} bars with {} changes and {} grips a change", passage.bars(), changes,
                       grips / changes);
}

TooMuchToPlan too_much(const std::string& what, const VoicingWishes& wishes, int count) {
    return TooMuchToPlan(fmt::format("{}: that is too much to plan at once: ask for {}", what,
                                     less_to_plan(wishes, count)));
}

}  // namespace

std::string less_to_plan(const VoicingWishes& wishes, int count) {
    std::string less = "fewer bars, fewer strings";
    if (wishes.open_strings) less += ", no open strings";
    if (wishes.thumb) less += ", no thumb";
    if (wishes.right_hand == RightHand::fingers) less += ", a pick in place of fingers";
    if (wishes.long_chords_move) less += ", chords that stay where they are";
    if (count > 1) less += ", fewer alternatives";
    return less;
}

std::vector<VoicingPlan> plan_voicings(const chart::Form& form, chart::Passage passage,
                                       time::Bpm tempo, const Fretboard& fretboard,
                                       const VoicingWishes& wishes, int count,
                                       const PlanningBounds& bounds) {
    WorkCount work(bounds);
    auto what = fmt::format("{} bars with more than {} grips", passage.bars(), bounds.grips);
    try {
        auto tune = stops_of(form, passage, tempo, fretboard, wishes, &work);
        what = what_there_is(passage, tune);
        auto echoes = echoes_of(tune, form.chart.meter);
        return Planner(std::move(tune), std::move(echoes), passage, tempo, fretboard,
                       wishes.position, work)
            .plan(count);
    } catch (const WorkCount::Beyond&) {
        throw too_much(what, wishes, count);
    }
}

std::vector<VoicingPlan> plan_voicings(const chart::Form& form, chart::Passage passage,
                                       time::Bpm tempo, const Fretboard& fretboard,
                                       const VoicingWishes& wishes, int count) {
    return plan_voicings(form, passage, tempo, fretboard, wishes, count, {});
}

}  // namespace compline::guitar
