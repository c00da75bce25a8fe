#include "chorus_plan.hpp"

#include <compline/assess/settings.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numeric>

namespace compline::simulate {

namespace {

using guitar::Shape;
using time::Seconds;
using time::Ticks;

constexpr Ticks beat = time::quarter_note;
constexpr int home_fret = 5;
constexpr int hand_span = 3;           // frets, lowest to highest, without a stretch
constexpr double colour_rate = 0.3;    // of grips with a tone more than the shell
constexpr double rootless_rate = 0.3;  // of those
constexpr double deed_rate = 0.8;      // of changes with room for a deed
constexpr Seconds plainly{0.015};      // beyond a limit by this much is beyond it
constexpr Seconds latest{0.200};       // later than this, a player would lay out

Ticks beats(int n) { return beat * n; }

/// A shell, now and then with a tone more on top that is right in any tune, and then perhaps
/// without its bass note.
Shape voicing(const harmony::Chord& chord, int near_fret, Chance& chance) {
    const auto board = guitar::Fretboard::standard();
    Shape shape = guitar::shell(board, chord, near_fret);
    if (chance.uniform() >= colour_rate) return shape;
    const auto palette = plainest_palette(chord);
    const int low = lowest_fret(shape);
    std::vector<Shape> coloured;
    for (const int string : {2, 1}) {
        if (shape.frets[static_cast<std::size_t>(string - 1)]) continue;
        for (int fret = low; fret <= low + hand_span; ++fret) {
            Shape wider = shape;
            wider.frets[static_cast<std::size_t>(string - 1)] = fret;
            const bool doubled = sounding(wider) == sounding(shape);
            if (!doubled && fit(palette, wider) == strings_of(wider)) coloured.push_back(wider);
        }
    }
    if (coloured.empty()) return shape;
    shape = coloured[chance.below(coloured.size())];
    if (chance.uniform() < rootless_rate) shape.frets[4].reset(), shape.frets[5].reset();
    return shape;
}

/// How often each deed is tried: those that few changes have a place for, more often.
constexpr std::array<int, deed_count> weights = {8, 6, 10, 8, 6, 6, 10, 3, 4, 4, 6, 6, 4};

Deed drawn(Chance& chance) {
    constexpr int all = std::accumulate(weights.begin(), weights.end(), 0);
    auto n = static_cast<int>(chance.below(all));
    std::size_t deed = 0;
    while (n >= weights[deed]) n -= weights[deed++];
    return static_cast<Deed>(deed);
}

class Planner {
  public:
    Planner(const chart::Form& form, const Hand& hand, Chance& chance)
        : form_(form), hand_(hand), chance_(chance) {
        int near_fret = home_fret;
        for (const auto& place : change_places(form, 1)) {
            PlannedChange change;
            static_cast<ChordPlace&>(change) = place;
            change.grip = change.struck = voicing(place.chord, near_fret, chance_);
            change.off = hand_.scattered(chance_);
            near_fret = (lowest_fret(change.grip) + home_fret) / 2;
            changes_.push_back(change);
        }
    }

    /// A deed has a simply played change on either side: each is its own cause.
    void plant_deeds() {
        for (std::size_t i = 1; i < changes_.size(); ++i) {
            if (changes_[i - 1].deed || chance_.uniform() >= deed_rate) continue;
            for (int tries = 0; tries < 6 && !changes_[i].deed; ++tries) {
                const Deed deed = drawn(chance_);
                if (plant(deed, i)) changes_[i].deed = deed;
            }
        }
    }

    std::vector<PlannedChange> take() { return std::move(changes_); }

  private:
    HandChange hand_change(std::size_t i) const {
        return {changes_[i - 1].chord, changes_[i - 1].grip, changes_[i].chord, changes_[i].grip,
                form_.chart.key};
    }

    bool plant(Deed deed, std::size_t i) {
        switch (deed) {
            case Deed::late:
                return plant_late(i);
            case Deed::wrong_third:
                return plant_wrong_third(i);
            case Deed::stuck_finger:
                return plant_stuck_finger(i);
            case Deed::missing_seventh:
                return plant_missing_seventh(i);
            case Deed::missed:
                return plant_missed(i);
            case Deed::push:
                return plant_push(i);
            case Deed::later_entry:
                return plant_later_entry(i);
            case Deed::laid_out:
                return plant_laid_out(i);
            case Deed::lead_in:
            case Deed::approach:
                return changes_[i - 1].length >= beats(2);
            case Deed::passing_chord:
            case Deed::fill:
                return changes_[i].length >= beats(3);
            case Deed::dead_strum:
                return changes_[i].length >= beats(2);
        }
        return false;
    }

    /// When an old grip would do for the new chord, it must not have been struck just before.
    void keep_apart(std::size_t i) { changes_[i].quiet_before = hand_change(i).old_grip_will_do(); }

    /// Half-way to the off-beat a chord may as well be early for that: in free rhythm it is judged
    /// by the nearer of the two. Beyond that it is plainly late only where the old chord rings
    /// wrongly all the time, longer than it may.
    bool plant_late(std::size_t i) {
        const auto change = hand_change(i);
        if (!change.tells() || changes_[i].length < beats(2)) return false;
        keep_apart(i);
        const Seconds most = std::min(latest, hand_.long_note() * 0.5 - Seconds(0.005));
        Seconds from = hand_.tolerance + plainly;
        Seconds to = most;
        const Seconds may_ring = std::max(Seconds(0.120), hand_.beat() * 0.25) + plainly;
        if (!change.old_grip_will_do() && may_ring < latest && chance_.below(2) == 0) {
            from = std::max(from, may_ring);
            to = latest;
            changes_[i].held_over = true;
        }
        changes_[i].off = from + (to - from) * chance_.uniform();
        changes_[i].words =
            fmt::format("{:.0f} ms late{}", changes_[i].off.milliseconds(),
                        changes_[i].held_over ? ", the old chord ringing until then" : "");
        return true;
    }

    bool spoil(std::size_t i, const std::vector<SpoiltGrip>& ways, const char* what) {
        if (ways.empty()) return false;
        const auto& way = ways[chance_.below(ways.size())];
        changes_[i].struck = way.shape;
        changes_[i].left_out = way.left_out;
        if (!way.left_out) changes_[i].foreign = way.note();
        changes_[i].words = fmt::format("{} for {}: {} on string {}", way.shape.text(),
                                        changes_[i].grip.text(), what, way.string);
        return true;
    }

    bool plant_wrong_third(std::size_t i) {
        auto ways = with_finger_off(hand_change(i));
        const auto& root = changes_[i].chord.root;
        const auto above_root = [&](const SpoiltGrip& way) {
            return (way.note().pitch_class() - root.pitch_class() + 12) % 12;
        };
        constexpr int minor_third = 3;
        constexpr int major_third = 4;
        std::erase_if(ways, [&](const SpoiltGrip& way) {
            const bool other = (above_root(way) == minor_third && way.moved == -1) ||
                               (above_root(way) == major_third && way.moved == 1);
            return !other;
        });
        return spoil(i, ways, "the other third");
    }

    bool plant_stuck_finger(std::size_t i) {
        return spoil(i, with_stuck_finger(hand_change(i)), "a finger stays");
    }

    bool plant_missing_seventh(std::size_t i) {
        auto ways = with_tone_left_out(hand_change(i));
        std::erase_if(ways, [](const SpoiltGrip& way) {
            return way.left_out->number != 7 && way.left_out->number != 6;
        });
        return spoil(i, ways, "nothing");
    }

    bool plant_missed(std::size_t i) {
        if (hand_change(i).old_grip_will_do()) return false;
        changes_[i].struck = changes_[i - 1].grip;
        changes_[i].words = fmt::format("{} struck on", changes_[i - 1].chord.symbol());
        return true;
    }

    bool plant_push(std::size_t i) {
        if (!hand_change(i).tells()) return false;
        keep_apart(i);
        changes_[i].entry = -half_beat;
        // The swung off-beat is where the off-beat is; straight lies before it.
        const Seconds straight = hand_.beat() * 0.5 - hand_.long_note();
        changes_[i].off = straight * chance_.uniform() + hand_.scattered(chance_);
        changes_[i].words = "pushed";
        return true;
    }

    /// Not in the last two beats of the chord: it might be a push of the next.
    bool plant_later_entry(std::size_t i) {
        if (changes_[i].length < beats(3) || !hand_change(i).tells()) return false;
        keep_apart(i);
        const auto half_beats = static_cast<std::uint64_t>(
            std::min<std::int64_t>((changes_[i].length - beats(2)) / half_beat, 4));
        changes_[i].entry = half_beat * static_cast<std::int64_t>(1 + chance_.below(half_beats));
        changes_[i].words =
            fmt::format("comes in {:g} beats after", time::Beats(changes_[i].entry).count());
        return true;
    }

    bool plant_laid_out(std::size_t i) {
        keep_apart(i);
        changes_[i].words = "laid out";
        return true;
    }

    const chart::Form& form_;
    const Hand& hand_;
    Chance& chance_;
    std::vector<PlannedChange> changes_;
};

}  // namespace

Hand::Hand(const time::Groove& g, Seconds scatter)
    : groove(g),
      tolerance(assess::auto_tolerance(g)),
      sd(std::min(scatter, tolerance * (0.9 / Chance::widest))) {}

std::vector<PlannedChange> plan_chorus(const chart::Form& form, const Hand& hand, bool deeds,
                                       Chance& chance) {
    Planner planner(form, hand, chance);
    if (deeds) planner.plant_deeds();
    return planner.take();
}

}  // namespace compline::simulate
