#include "refusals.hpp"
#include "several_ways.hpp"
#include "stops.hpp"

#include <compline/guitar/voicing_plan.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

namespace compline::guitar {

namespace {

class Planner {
  public:
    Planner(Tune tune, Echoes echoes, chart::Passage passage, time::Bpm tempo,
            const Fretboard& fretboard, std::optional<int> position)
        : tune_(std::move(tune)),
          echoes_(std::move(echoes)),
          passage_(passage),
          tempo_(tempo),
          fretboard_(fretboard),
          position_(position) {}

    std::vector<VoicingPlan> plan(int count) {
        if (tune_.stops.empty()) return {in_words({})};
        std::vector<VoicingPlan> plans;
        for (const auto& way :
             position_ ? ways_in_position(count) : best_ways(table_, tune_.stops, count, echoes_)) {
            plans.push_back(in_words(way.ids));
        }
        return plans;
    }

  private:
    /// The best ways with all fretted notes within so many frets, wherever on the neck.
    [[nodiscard]] std::vector<Way> ways_in_position(int count) const {
        std::vector<Way> ways;
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
            throw PlanningError(fmt::format(
                "{}, {}: {} frets are too few for this chord and those before it: allow "
                "a wider position, or leave it out",
                place_name(change), change.to.symbol(), *position_));
        }
        std::stable_sort(ways.begin(), ways.end(),
                         [](const Way& a, const Way& b) { return a.cost < b.cost; });
        // One window's best may lie in the next window too.
        std::vector<Way> distinct;
        for (const auto& way : ways) {
            const bool there = std::any_of(distinct.begin(), distinct.end(), [&](const Way& other) {
                return have_same_shapes(way, other);
            });
            if (!there && distinct.size() < static_cast<std::size_t>(count))
                distinct.push_back(way);
        }
        return distinct;
    }

    [[nodiscard]] bool have_same_shapes(const Way& a, const Way& b) const {
        for (std::size_t i = 0; i < tune_.stops.size(); ++i) {
            const auto& candidates = *tune_.stops[i].candidates;
            if (candidates.shape_key(a.ids[i]) != candidates.shape_key(b.ids[i])) return false;
        }
        return true;
    }

    /// Leaves the grips within a window; gives the first stop that has none.
    [[nodiscard]] std::size_t within(int low, std::vector<Stop>& stops) const {
        const int high = low + *position_ - 1;
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
            stop.ids.erase(std::remove_if(stop.ids.begin(), stop.ids.end(), outside),
                           stop.ids.end());
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
    FingerTable table_{fretboard_.strings(), fretboard_.frets()};
};

}  // namespace

std::vector<VoicingPlan> plan_voicings(const chart::Form& form, chart::Passage passage,
                                       time::Bpm tempo, const Fretboard& fretboard,
                                       const VoicingWishes& wishes, int count) {
    auto tune = stops_of(form, passage, tempo, fretboard, wishes);
    auto echoes = echoes_of(tune, form.chart.meter);
    return Planner(std::move(tune), std::move(echoes), passage, tempo, fretboard, wishes.position)
        .plan(count);
}

}  // namespace compline::guitar
