#include "in_form.hpp"

#include <compline/guitar/hand.hpp>
#include <compline/guitar/voicing_plan.hpp>
#include <compline/practice/fault_grips.hpp>
#include <compline/practice/places.hpp>
#include <compline/practice/time_alone.hpp>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <utility>

namespace compline::practice {

namespace {

using assess::Change;
using assess::ReadStrum;
using assess::Tones;
using assess::Verdict;
using guitar::Shape;
using time::Seconds;

/// A strum rings fully then: its notes are 60 ms apart at most, and the judge waits 30 more.
constexpr Seconds until_it_rings{0.09};
constexpr int fewest_strings = 2;
/// What rings longer than so many notes back is hardly heard.
constexpr int most_looked_at = 64;

/// What rings at a moment, a string's newest note.
Shape ringing_shape(const Report& report, Seconds at) {
    Shape shape;
    shape.strings = report.heard.fretboard.strings();
    const auto& notes = report.heard.notes;
    auto note = std::partition_point(notes.begin(), notes.end(),
                                     [&](const auto& one) { return one.on <= at; });
    for (int looked = 0; note != notes.begin() && looked < most_looked_at; ++looked) {
        --note;
        if (!note->string || !note->fret || !note->sounds_at(at)) continue;
        auto& fret = shape.on(*note->string);
        if (!fret) fret = note->fret;
    }
    return shape;
}

bool is_grip(const Shape& shape) {
    return static_cast<int>(shape.places().size()) >= fewest_strings;
}

bool holds_chord(const ReadStrum& strum) {
    using assess::ReadAs;
    return strum.read_as == ReadAs::landing || strum.read_as == ReadAs::again ||
           strum.read_as == ReadAs::old || strum.read_as == ReadAs::outside;
}

/// What the last chord that was struck before a moment left in the hand.
Shape held_before(const Report& report, Seconds before) {
    Shape held;
    for (const auto& strum : report.assessment.strums) {
        if (strum.at >= before) break;
        if (!holds_chord(strum)) continue;
        const auto at = std::min(strum.at + until_it_rings, before);
        if (const auto shape = ringing_shape(report, at); is_grip(shape)) held = shape;
    }
    return held;
}

int lowest_fret(const Shape& shape) {
    int lowest = 0;
    for (const auto& place : shape.places()) {
        if (place.fret > 0) lowest = lowest == 0 ? place.fret : std::min(lowest, place.fret);
    }
    return lowest;
}

/// The grip with which a chord was right most often; a shell near by where it never was.
Shape usual_shape(const Report& report, const harmony::Chord& chord, const Shape& near) {
    std::map<std::string, std::pair<int, Shape>> used;
    for (const auto& change : report.assessment.changes) {
        if (change.uncertain || change.tones != Tones::right || !(change.to == chord)) continue;
        if (!change.grip || !is_grip(*change.grip)) continue;
        auto& [count, kept] = used[change.grip->text()];
        ++count;
        kept = *change.grip;
    }
    const auto most = std::max_element(used.begin(), used.end(), [](const auto& a, const auto& b) {
        return a.second.first < b.second.first;
    });
    if (most != used.end()) return most->second.second;
    return guitar::shell(report.heard.fretboard, chord, lowest_fret(near));
}

/// Each foreign tone on its nearest right fret; a string that has none falls silent.
Shape mended(Shape shape, const Change& change) {
    for (const auto& wrong : change.wrong) {
        if (wrong.string) shape.on(*wrong.string) = wrong.nearest_fret;
    }
    return shape;
}

guitar::Grip fingered(const Shape& shape, const guitar::Fretboard& fretboard) {
    const guitar::Hands anyhow{true, guitar::RightHand::fingers};
    const auto ways = guitar::fingerings(shape, anyhow, fretboard.capo());
    return ways.empty() ? guitar::Grip{shape, {}} : ways.front();
}

Shape held_at(const Report& report, const Change& change) {
    constexpr Seconds a_little{0.3};
    if (change.tones == Tones::wrong || change.tones == Tones::incomplete) {
        return change.grip.value_or(Shape{});
    }
    if (change.verdict == Verdict::missed) return held_before(report, change.at + a_little);
    if (change.verdict != Verdict::late || !change.lateness) return {};
    return held_before(report, change.at + *change.lateness * 0.5);
}

Shape due_without_plan(const Report& report, const Change& change, const Shape& held) {
    if (change.tones == Tones::wrong) {
        const auto shape = mended(held, change);
        if (is_grip(shape)) return shape;
    } else if (change.tones != Tones::incomplete && change.verdict == Verdict::late) {
        return change.grip.value_or(Shape{});
    }
    return usual_shape(report, change.to, held);
}

/// By the plan that was shown; else what there is to go by, with the fingers of a hand.
guitar::Grip due_grip(const Report& report, const Change& change, const Shape& held,
                      const guitar::VoicingPlan* shown) {
    if (shown != nullptr) {
        const auto* const planned = shown->at(in_form(report.map.form(), change));
        if (planned != nullptr && planned->change.to == change.to) return planned->grip;
    }
    return fingered(due_without_plan(report, change, held), report.heard.fretboard);
}

}  // namespace

std::optional<FaultGrips> grips_of_fault(const Report& report, std::size_t change_index,
                                         const guitar::VoicingPlan* shown) {
    const auto& change = report.assessment.changes.at(change_index);
    if (change.uncertain || !judges_tones(report)) return std::nullopt;
    const auto held = held_at(report, change);
    if (!is_grip(held)) return std::nullopt;
    const auto due = due_grip(report, change, held, shown);
    if (!is_grip(due.shape) || held == due.shape) return std::nullopt;
    FaultGrips grips{change_index, fingered(held, report.heard.fretboard), {}, due};
    for (const auto& wrong : change.wrong) {
        if (wrong.string) grips.foreign.push_back(*wrong.string);
    }
    return grips;
}

std::vector<FaultGrips> worst_grips(const Report& report, std::size_t most,
                                    const guitar::VoicingPlan* shown) {
    const auto places = places_of(report);
    const auto& changes = report.assessment.changes;
    const auto where = [](const Change& change) { return std::pair(change.bar, change.beat); };
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        if (!changes[i].uncertain && !changes[i].seam && changes[i].cost() > 0) order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const double of_a = places.at(where(changes[a])).figures.cost;
        const double of_b = places.at(where(changes[b])).figures.cost;
        return of_a != of_b ? of_a > of_b : changes[a].cost() > changes[b].cost();
    });
    std::vector<FaultGrips> worst;
    std::set<std::pair<int, time::BeatOfBar>> told;
    for (const auto index : order) {
        if (worst.size() == most) break;
        if (told.count(where(changes[index])) > 0) continue;
        auto grips = grips_of_fault(report, index, shown);
        if (!grips) continue;
        told.insert(where(changes[index]));
        worst.push_back(*std::move(grips));
    }
    return worst;
}

}  // namespace compline::practice
