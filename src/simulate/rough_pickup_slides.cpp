#include "rough_pickup_parts.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>

namespace compline::simulate {

namespace {

using time::from_milliseconds;
using time::Seconds;

constexpr int farthest = 5;  // frets in one slide
/// The finger stays on the string: the old note ends as the new one begins.
constexpr Seconds slide_bound{0.020};
constexpr Seconds shortest_before{0.080};
constexpr Seconds shortest_after{0.060};
/// What is heard of the old note before its finger leaves.
constexpr Seconds heard_before{0.030};
constexpr double shortest_pass_ms = 15;
constexpr double longest_pass_ms = 40;

int way(const Sending& sending, std::size_t to) {
    return sending.played[to].key - sending.played[*sending.played[to].before].key;
}

bool has_fingers(const Sending& sending, const PlayedNote& from, const PlayedNote& to) {
    const int open = sending.rough.fretboard.open(to.string).number();
    return from.key != open && to.key != open;
}

/// How far a note is bent once all slides chosen so far are done.
int bent_by(const Sending& sending, std::size_t i) {
    int bent = 0;
    while (sending.played[i].slid) {
        bent += way(sending, i);
        i = *sending.played[i].before;
    }
    return bent;
}

bool can_slide_to(const Sending& sending, std::size_t to) {
    const auto& note = sending.played[to];
    if (!note.before || note.dropped) return false;
    const auto& from = sending.played[*note.before];
    const int frets = std::abs(note.key - from.key);
    if (from.dropped || frets == 0 || frets > farthest) return false;
    if (!has_fingers(sending, from, note) || time::abs(note.on - from.off) > slide_bound)
        return false;
    if (from.off - from.on < shortest_before || note.off - note.on < shortest_after) return false;
    if (slides_bend(sending.rough)) {
        return std::abs(bent_by(sending, *note.before) + note.key - from.key) <=
               sending.rough.bend_range;
    }
    // A neighbouring fret comes as one new note, which nothing tells from a picked one.
    const Seconds longest_way = from_milliseconds(longest_pass_ms) * (frets - 1);
    return frets >= 2 && from.off - from.on > longest_way + heard_before;
}

/// In MIDI's units, rounded away from where the slide began, so that half-way is reached.
int bend_value(double semitones, double range, bool up) {
    const double value = semitones / range * 8192;
    const double towards = up ? std::ceil(value - 1e-6) : std::floor(value + 1e-6);
    return static_cast<int>(std::clamp(towards, -8192.0, 8191.0));
}

/// Steps on either side of the middle, which is when the note is due, and one on it.
void bend_to(Sending& sending, std::size_t to, Seconds length, Seconds step) {
    const auto& note = sending.played[to];
    SentNote& sent = sending.sent[*sending.sent_as[to]];
    const double by = way(sending, to);
    const double from = bent_by(sending, *note.before);
    const Seconds middle = note.on + sending.delay_of(note.string, note.key) + sending.scatter[to];
    const int steps = std::max(1, static_cast<int>(length * 0.5 / step));
    for (int k = -steps; k <= steps; ++k) {
        const double done = 0.5 + 0.5 * k / (steps + 1);
        sent.bends.push_back(
            {middle + step * k, bend_value(from + by * done, sending.rough.bend_range, by > 0)});
    }
    const Seconds end = middle + step * (steps + 1);
    sent.bends.push_back({end, bend_value(from + by, sending.rough.bend_range, by > 0)});
    sent.off = std::max(sent.off, end);
}

/// Every fret on the way as a note, the last of them until the note itself comes.
void pass_frets(Sending& sending, std::size_t to, Seconds each) {
    const auto& note = sending.played[to];
    const SentNote arrival = sending.sent[*sending.sent_as[to]];
    SentNote& from = sending.sent[*sending.sent_as[*note.before]];
    const int frets = std::abs(way(sending, to));
    const int direction = way(sending, to) > 0 ? 1 : -1;
    const int key = from.key;
    from.off = arrival.on - each * (frets - 1);
    SentNote passed = from;
    passed.velocity = std::max(1, from.velocity * 3 / 4);
    for (int n = 1; n < frets; ++n) {
        passed.key = key + n * direction;
        passed.on = arrival.on - each * (frets - n);
        passed.off = passed.on + each;
        sending.done(Fault::fret_passed, passed);
        sending.sent.push_back(passed);
    }
}

}  // namespace

void choose_slides(Sending& sending) {
    Chance chance = sending.chance_for(Fault::slide);
    const bool bends = slides_bend(sending.rough);
    bool slides = false;
    for (std::size_t i = 0; i < sending.played.size(); ++i) {
        const bool new_strum = i == 0 || sending.played[i].strum != sending.played[i - 1].strum;
        if (new_strum) slides = chance.uniform() < sending.rough.slides;
        if (!slides || !can_slide_to(sending, i)) continue;
        auto& note = sending.played[i];
        auto& from = sending.played[*note.before];
        note.slid = true;
        from.slid_from = true;
        from.off = note.on;
        if (bends) note.velocity = from.velocity;
    }
}

void send_slides(Sending& sending) {
    const bool bends = slides_bend(sending.rough);
    Chance chance = sending.chance_for(Fault::fret_passed);
    for (std::size_t i = 0; i < sending.played.size(); ++i) {
        const Seconds length = between_ms(chance, 20, 60);
        const Seconds step = between_ms(chance, 5, 8);
        const Seconds each = between_ms(chance, shortest_pass_ms, longest_pass_ms);
        const auto& note = sending.played[i];
        if (!note.slid) continue;
        if (bends) {
            bend_to(sending, i, length, step);
        } else {
            pass_frets(sending, i, each);
        }
        SentNote slid;
        slid.string = note.string;
        slid.key = note.key;
        slid.velocity = note.velocity;
        slid.on = note.on + sending.delay_of(note.string, note.key);
        slid.off = slid.on + (note.off - note.on);
        sending.done(Fault::slide, slid);
    }
}

void sway(Sending& sending) {
    if (sending.rough.one_channel) return;
    constexpr Seconds long_note{0.600};
    constexpr Seconds settled{0.250};
    constexpr Seconds step{0.012};
    Chance chance = sending.chance_for(Fault::vibrato);
    for (std::size_t i = 0; i < sending.played.size(); ++i) {
        const bool happens = chance.uniform() < sending.rough.vibrato;
        const double depth = 0.10 + 0.25 * chance.uniform();
        const double rate = 5 + chance.uniform();
        if (!happens || sending.played[i].dropped || sending.played[i].slid) continue;
        // Of a double trigger what is sent last sways.
        SentNote& sent = sending.sent[*sending.sent_as[i]];
        if (!sent.bends.empty() || sent.off - sent.on <= long_note) continue;
        for (Seconds t = settled; sent.on + t < sent.off; t += step) {
            const double phase = 2 * std::numbers::pi * rate * (t - settled).count();
            const double value = depth * std::sin(phase) / sending.rough.bend_range * 8192;
            sent.bends.push_back({sent.on + t, static_cast<int>(std::lround(value))});
        }
        sending.done(Fault::vibrato, sent);
    }
}

}  // namespace compline::simulate
