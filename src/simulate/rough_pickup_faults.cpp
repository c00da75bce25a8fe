#include "rough_pickup_parts.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace compline::simulate {

namespace {

using time::from_milliseconds;
using time::Seconds;

/// A pickup that sends a note lets it sound for this long at least.
constexpr Seconds shortest_sent{0.005};
/// What is left of a note after something befell its beginning.
constexpr Seconds enough_left{0.020};
/// Bound: the next note on the string begins as this one ends.
constexpr Seconds bound{0.020};

int louder_or_softer(int velocity, double part) {
    return std::clamp(static_cast<int>(std::lround(velocity * part)), 1, 127);
}

/// Until when the first part of a note is free: it ends or begins to bend.
Seconds undisturbed_until(const SentNote& sent) {
    return sent.bends.empty() ? sent.off : std::min(sent.off, sent.bends.front().at);
}

/// The note sent next on a string from a time on, if any.
const SentNote* next_on(const Sending& sending, int string, Seconds from) {
    const SentNote* next = nullptr;
    for (const SentNote& sent : sending.sent) {
        if (sent.string != string || sent.on < from) continue;
        if (next == nullptr || sent.on < next->on) next = &sent;
    }
    return next;
}

}  // namespace

void drop_soft_notes(Sending& sending) {
    if (sending.rough.dropped <= 0) return;
    std::vector<int> velocities;
    for (const auto& note : sending.played) velocities.push_back(note.velocity);
    std::sort(velocities.begin(), velocities.end());
    if (velocities.empty()) return;
    const int soft = velocities[(velocities.size() - 1) / 5];
    Chance chance = sending.chance_for(Fault::dropped);
    for (auto& note : sending.played) {
        const bool falls = chance.uniform() < sending.rough.dropped;
        note.dropped = falls && note.velocity <= soft;
    }
}

void scatter_velocities(Sending& sending) {
    if (sending.rough.velocity_sd <= 0) return;
    Chance chance = sending.chance_for(fault_count + 1);
    for (auto& note : sending.played) {
        const double velocity = note.velocity + sending.rough.velocity_sd * chance.scatter();
        note.velocity = std::clamp(static_cast<int>(std::lround(velocity)), 1, 127);
    }
}

void send_all(Sending& sending) {
    Chance chance = sending.chance_for(fault_count + 2);
    const bool bends = slides_bend(sending.rough);
    // The end of what was sent before on each string, which the next note may not precede.
    std::array<std::optional<std::size_t>, 17> last;
    for (std::size_t i = 0; i < sending.played.size(); ++i) {
        const auto& note = sending.played[i];
        const Seconds scatter = sending.rough.scatter * chance.scatter();
        sending.scatter.push_back(scatter);
        sending.sent_as.emplace_back();
        if (note.dropped) continue;
        SentNote sent;
        sent.played = i;
        sent.string = note.string;
        sent.key = note.key;
        sent.velocity = note.velocity;
        auto& before = last.at(static_cast<std::size_t>(note.string));
        if (note.slid && bends) {
            // The note that was struck goes on.
            sending.sent[*before].off = note.off + sending.delay_of(note.string, note.key);
            sending.sent_as.back() = before;
            continue;
        }
        sent.on = note.on + sending.delay_of(note.string, note.key) + scatter;
        if (before) {
            auto& old = sending.sent[*before];
            sent.on = std::max(sent.on, old.on + shortest_sent);
            old.off = std::min(old.off, sent.on);
        }
        sent.off =
            std::max(note.off + sending.delay_of(note.string, note.key), sent.on + shortest_sent);
        before = sending.sent.size();
        sending.sent_as.back() = before;
        sending.sent.push_back(sent);
    }
}

void flicker(Sending& sending) {
    Chance chance = sending.chance_for(Fault::flicker);
    for (std::size_t i = 0; i < sending.played.size(); ++i) {
        const bool happens = chance.uniform() < sending.rough.flickers;
        const int size = chance.uniform() < 0.7 ? 12 : 19;
        const int apart = chance.uniform() < 0.85 ? size : -size;
        const Seconds length = between_ms(chance, 10, 50);
        const double part = 0.6 + 0.4 * chance.uniform();
        const auto& note = sending.played[i];
        if (!happens || note.dropped || note.slid) continue;
        SentNote& sent = sending.sent[*sending.sent_as[i]];
        const int key = sent.key + apart;
        if (key < 0 || key > 127) continue;
        SentNote wrong = sent;
        wrong.key = key;
        wrong.bends.clear();
        wrong.on = note.on + sending.delay_of(note.string, key) + sending.scatter[i];
        wrong.off = wrong.on + length;
        if (wrong.off + enough_left > undisturbed_until(sent)) continue;
        const Seconds earliest = note.before && sending.sent_as[*note.before]
                                     ? sending.sent[*sending.sent_as[*note.before]].off
                                     : Seconds(-1e12);
        if (wrong.on < earliest) continue;
        sent.on = wrong.off;
        sent.velocity = louder_or_softer(sent.velocity, part);
        sending.done(Fault::flicker, wrong);
        sending.sent.push_back(wrong);
    }
}

void trigger_twice(Sending& sending) {
    Chance chance = sending.chance_for(Fault::double_trigger);
    for (std::size_t i = 0; i < sending.played.size(); ++i) {
        const bool happens = chance.uniform() < sending.rough.double_triggers;
        const Seconds gap = between_ms(chance, 15, 50);
        const bool over = chance.below(2) == 0;
        const Seconds silent = between_ms(chance, 1, 10);
        const double part = 0.4 + 0.6 * chance.uniform();
        if (!happens || sending.played[i].dropped || sending.played[i].slid) continue;
        SentNote& first = sending.sent[*sending.sent_as[i]];
        SentNote second = first;
        second.on = first.on + gap;
        if (second.on + enough_left > undisturbed_until(first)) continue;
        second.velocity = louder_or_softer(first.velocity, part);
        // What goes on with the note goes on with what is sent last.
        SentNote before = first;
        before.bends.clear();
        before.off = over ? second.off : second.on - silent;
        first = second;
        sending.done(Fault::double_trigger, second);
        sending.sent.push_back(before);
    }
}

void ring_on_lift_off(Sending& sending) {
    Chance chance = sending.chance_for(Fault::lift_off);
    const auto notes = sending.played.size();
    for (std::size_t i = 0; i < notes; ++i) {
        const bool happens = chance.uniform() < sending.rough.lift_offs;
        const Seconds after = between_ms(chance, 0, 25);
        const Seconds length = between_ms(chance, 40, 200);
        const double part = 0.15 + 0.34 * chance.uniform();
        const auto& note = sending.played[i];
        const int open = sending.rough.fretboard.open(note.string).number();
        if (!happens || note.dropped || note.slid_from || note.key == open) continue;
        const SentNote& sent = sending.sent[*sending.sent_as[i]];
        SentNote ring;
        ring.played = i;
        ring.string = note.string;
        ring.key = open;
        ring.velocity = std::max(1, static_cast<int>(std::floor(note.velocity * part)));
        ring.on = std::max(note.off + after + sending.delay_of(note.string, open), sent.off);
        ring.off = ring.on + length;
        // Only where the string is left alone for as long as the shortest one rings.
        const SentNote* next = next_on(sending, note.string, sent.off);
        if (next != nullptr) ring.off = std::min(ring.off, next->on - shortest_sent);
        if (ring.off - ring.on < from_milliseconds(40)) continue;
        sending.done(Fault::lift_off, ring);
        sending.sent.push_back(ring);
    }
}

void end_late(Sending& sending) {
    Chance chance = sending.chance_for(Fault::late_off);
    for (auto& sent : sending.sent) {
        const bool happens = chance.uniform() < sending.rough.late_offs;
        const Seconds by = between_ms(chance, 5, 60);
        if (!happens || !sent.bends.empty()) continue;
        const SentNote* next = next_on(sending, sent.string, sent.off);
        if (next == nullptr || next->on - sent.off > bound || next->key == sent.key) continue;
        sent.off = next->on + by;
        sending.done(Fault::late_off, sent);
    }
}

void lose_ends(Sending& sending) {
    Chance chance = sending.chance_for(Fault::lost_off);
    for (auto& sent : sending.sent) {
        if (chance.uniform() >= sending.rough.lost_offs) continue;
        sent.ended = false;
        sending.done(Fault::lost_off, sent);
    }
}

}  // namespace compline::simulate
