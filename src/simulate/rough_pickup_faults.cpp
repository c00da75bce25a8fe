#include "rough_pickup_parts.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace compline::simulate {

namespace {

using time::from_milliseconds;
using time::Seconds;

/// A pickup that tells a note tells it for this long at least.
constexpr Seconds shortest_told{0.005};
/// What is left of a note after something befell its beginning.
constexpr Seconds enough_left{0.020};
/// Bound: the next note on the string begins as this one ends.
constexpr Seconds bound{0.020};

int louder_or_softer(int velocity, double part) {
    return std::clamp(static_cast<int>(std::lround(velocity * part)), 1, 127);
}

/// Until when the first part of a note is free: it ends or begins to bend.
Seconds undisturbed_until(const Told& told) {
    return told.bends.empty() ? told.off : std::min(told.off, told.bends.front().at);
}

/// The note told next on a string from a time on, if any.
const Told* next_on(const Telling& telling, int string, Seconds from) {
    const Told* next = nullptr;
    for (const Told& told : telling.told) {
        if (told.string != string || told.on < from) continue;
        if (next == nullptr || told.on < next->on) next = &told;
    }
    return next;
}

}  // namespace

void drop_soft_notes(Telling& telling) {
    if (telling.rough.dropped <= 0) return;
    std::vector<int> velocities;
    for (const auto& note : telling.played) velocities.push_back(note.velocity);
    std::sort(velocities.begin(), velocities.end());
    if (velocities.empty()) return;
    const int soft = velocities[(velocities.size() - 1) / 5];
    Chance chance = telling.chance_for(Fault::dropped);
    for (auto& note : telling.played) {
        const bool falls = chance.uniform() < telling.rough.dropped;
        note.dropped = falls && note.velocity <= soft;
    }
}

void scatter_velocities(Telling& telling) {
    if (telling.rough.velocity_sd <= 0) return;
    Chance chance = telling.chance_for(fault_count + 1);
    for (auto& note : telling.played) {
        const double velocity = note.velocity + telling.rough.velocity_sd * chance.scatter();
        note.velocity = std::clamp(static_cast<int>(std::lround(velocity)), 1, 127);
    }
}

void tell_all(Telling& telling) {
    Chance chance = telling.chance_for(fault_count + 2);
    const bool bends = slides_bend(telling.rough);
    // The end of what was told before on each string, which the next note may not precede.
    std::array<std::optional<std::size_t>, 17> last;
    for (std::size_t i = 0; i < telling.played.size(); ++i) {
        const auto& note = telling.played[i];
        const Seconds scatter = telling.rough.scatter * chance.scatter();
        telling.scatter.push_back(scatter);
        telling.told_by.emplace_back();
        if (note.dropped) continue;
        Told told;
        told.played = i;
        told.string = note.string;
        told.key = note.key;
        told.velocity = note.velocity;
        auto& before = last.at(static_cast<std::size_t>(note.string));
        if (note.slid && bends) {
            // The note that was struck goes on.
            telling.told[*before].off = note.off + telling.delay_of(note.key);
            telling.told_by.back() = before;
            continue;
        }
        told.on = note.on + telling.delay_of(note.key) + scatter;
        if (before) {
            auto& old = telling.told[*before];
            told.on = std::max(told.on, old.on + shortest_told);
            old.off = std::min(old.off, told.on);
        }
        told.off = std::max(note.off + telling.delay_of(note.key), told.on + shortest_told);
        before = telling.told.size();
        telling.told_by.back() = before;
        telling.told.push_back(told);
    }
}

void flicker(Telling& telling) {
    Chance chance = telling.chance_for(Fault::flicker);
    for (std::size_t i = 0; i < telling.played.size(); ++i) {
        const bool happens = chance.uniform() < telling.rough.flickers;
        const int size = chance.uniform() < 0.7 ? 12 : 19;
        const int apart = chance.uniform() < 0.85 ? size : -size;
        const Seconds length = between(chance, 10, 50);
        const double part = 0.6 + 0.4 * chance.uniform();
        const auto& note = telling.played[i];
        if (!happens || note.dropped || note.slid) continue;
        Told& told = telling.told[*telling.told_by[i]];
        const int key = told.key + apart;
        if (key < 0 || key > 127) continue;
        Told wrong = told;
        wrong.key = key;
        wrong.bends.clear();
        wrong.on = note.on + telling.delay_of(key) + telling.scatter[i];
        wrong.off = wrong.on + length;
        if (wrong.off + enough_left > undisturbed_until(told)) continue;
        const Seconds earliest = note.before && telling.told_by[*note.before]
                                     ? telling.told[*telling.told_by[*note.before]].off
                                     : Seconds(-1e12);
        if (wrong.on < earliest) continue;
        told.on = wrong.off;
        told.velocity = louder_or_softer(told.velocity, part);
        telling.done(Fault::flicker, wrong);
        telling.told.push_back(wrong);
    }
}

void trigger_twice(Telling& telling) {
    Chance chance = telling.chance_for(Fault::double_trigger);
    for (std::size_t i = 0; i < telling.played.size(); ++i) {
        const bool happens = chance.uniform() < telling.rough.double_triggers;
        const Seconds gap = between(chance, 15, 50);
        const bool over = chance.below(2) == 0;
        const Seconds silent = between(chance, 1, 10);
        const double part = 0.4 + 0.6 * chance.uniform();
        if (!happens || telling.played[i].dropped || telling.played[i].slid) continue;
        Told& first = telling.told[*telling.told_by[i]];
        Told second = first;
        second.on = first.on + gap;
        if (second.on + enough_left > undisturbed_until(first)) continue;
        second.velocity = louder_or_softer(first.velocity, part);
        // What goes on with the note goes on with what is told last.
        Told before = first;
        before.bends.clear();
        before.off = over ? second.off : second.on - silent;
        first = second;
        telling.done(Fault::double_trigger, second);
        telling.told.push_back(before);
    }
}

void ring_on_lift_off(Telling& telling) {
    Chance chance = telling.chance_for(Fault::lift_off);
    const auto notes = telling.played.size();
    for (std::size_t i = 0; i < notes; ++i) {
        const bool happens = chance.uniform() < telling.rough.lift_offs;
        const Seconds after = between(chance, 0, 25);
        const Seconds length = between(chance, 40, 200);
        const double part = 0.15 + 0.34 * chance.uniform();
        const auto& note = telling.played[i];
        const int open = telling.rough.fretboard.open(note.string).number();
        if (!happens || note.dropped || note.slid_from || note.key == open) continue;
        const Told& told = telling.told[*telling.told_by[i]];
        Told ring;
        ring.played = i;
        ring.string = note.string;
        ring.key = open;
        ring.velocity = std::max(1, static_cast<int>(std::floor(note.velocity * part)));
        ring.on = std::max(note.off + after + telling.delay_of(open), told.off);
        ring.off = ring.on + length;
        // Only where the string is left alone for as long as the shortest one rings.
        const Told* next = next_on(telling, note.string, told.off);
        if (next != nullptr) ring.off = std::min(ring.off, next->on - shortest_told);
        if (ring.off - ring.on < from_milliseconds(40)) continue;
        telling.done(Fault::lift_off, ring);
        telling.told.push_back(ring);
    }
}

void end_late(Telling& telling) {
    Chance chance = telling.chance_for(Fault::late_off);
    for (auto& told : telling.told) {
        const bool happens = chance.uniform() < telling.rough.late_offs;
        const Seconds by = between(chance, 5, 60);
        if (!happens || !told.bends.empty()) continue;
        const Told* next = next_on(telling, told.string, told.off);
        if (next == nullptr || next->on - told.off > bound || next->key == told.key) continue;
        told.off = next->on + by;
        telling.done(Fault::late_off, told);
    }
}

void lose_ends(Telling& telling) {
    Chance chance = telling.chance_for(Fault::lost_off);
    for (auto& told : telling.told) {
        if (chance.uniform() >= telling.rough.lost_offs) continue;
        told.ended = false;
        telling.done(Fault::lost_off, told);
    }
}

}  // namespace compline::simulate
