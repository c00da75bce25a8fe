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
constexpr Seconds bound{0.020};
constexpr Seconds shortest_before{0.080};
constexpr Seconds shortest_after{0.060};
/// What is heard of the old note before its finger leaves.
constexpr Seconds heard_before{0.030};
constexpr double shortest_pass_ms = 15;
constexpr double longest_pass_ms = 40;

int way(const Telling& telling, std::size_t to) {
    return telling.played[to].key - telling.played[*telling.played[to].before].key;
}

bool has_fingers(const Telling& telling, const Played& from, const Played& to) {
    const int open = telling.rough.fretboard.open(to.string).number();
    return from.key != open && to.key != open;
}

/// How far a note is bent once all slides chosen so far are done.
int bent_by(const Telling& telling, std::size_t i) {
    int bent = 0;
    while (telling.played[i].slid) {
        bent += way(telling, i);
        i = *telling.played[i].before;
    }
    return bent;
}

bool can_slide_to(const Telling& telling, std::size_t to) {
    const auto& note = telling.played[to];
    if (!note.before || note.dropped) return false;
    const auto& from = telling.played[*note.before];
    const int frets = std::abs(note.key - from.key);
    if (from.dropped || frets == 0 || frets > farthest) return false;
    if (!has_fingers(telling, from, note) || time::abs(note.on - from.off) > bound) return false;
    if (from.off - from.on < shortest_before || note.off - note.on < shortest_after) return false;
    if (slides_bend(telling.rough)) {
        return std::abs(bent_by(telling, *note.before) + note.key - from.key) <=
               telling.rough.bend_range;
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
void bend_to(Telling& telling, std::size_t to, Seconds length, Seconds step) {
    const auto& note = telling.played[to];
    Told& told = telling.told[*telling.told_by[to]];
    const double by = way(telling, to);
    const double from = bent_by(telling, *note.before);
    const Seconds middle = note.on + telling.delay_of(note.key) + telling.scatter[to];
    const int steps = std::max(1, static_cast<int>(length * 0.5 / step));
    for (int k = -steps; k <= steps; ++k) {
        const double done = 0.5 + 0.5 * k / (steps + 1);
        told.bends.push_back(
            {middle + step * k, bend_value(from + by * done, telling.rough.bend_range, by > 0)});
    }
    const Seconds end = middle + step * (steps + 1);
    told.bends.push_back({end, bend_value(from + by, telling.rough.bend_range, by > 0)});
    told.off = std::max(told.off, end);
}

/// Every fret on the way as a note, the last of them until the note itself comes.
void pass_frets(Telling& telling, std::size_t to, Seconds each) {
    const auto& note = telling.played[to];
    const Told arrival = telling.told[*telling.told_by[to]];
    Told& from = telling.told[*telling.told_by[*note.before]];
    const int frets = std::abs(way(telling, to));
    const int direction = way(telling, to) > 0 ? 1 : -1;
    const int key = from.key;
    from.off = arrival.on - each * (frets - 1);
    Told passed = from;
    passed.velocity = std::max(1, from.velocity * 3 / 4);
    for (int n = 1; n < frets; ++n) {
        passed.key = key + n * direction;
        passed.on = arrival.on - each * (frets - n);
        passed.off = passed.on + each;
        telling.done(Fault::fret_passed, passed);
        telling.told.push_back(passed);
    }
}

}  // namespace

void choose_slides(Telling& telling) {
    Chance chance = telling.chance_for(Fault::slide);
    const bool bends = slides_bend(telling.rough);
    bool slides = false;
    for (std::size_t i = 0; i < telling.played.size(); ++i) {
        const bool new_strum = i == 0 || telling.played[i].strum != telling.played[i - 1].strum;
        if (new_strum) slides = chance.uniform() < telling.rough.slides;
        if (!slides || !can_slide_to(telling, i)) continue;
        auto& note = telling.played[i];
        auto& from = telling.played[*note.before];
        note.slid = true;
        from.slid_from = true;
        from.off = note.on;
        if (bends) note.velocity = from.velocity;
    }
}

void tell_slides(Telling& telling) {
    const bool bends = slides_bend(telling.rough);
    Chance chance = telling.chance_for(Fault::fret_passed);
    for (std::size_t i = 0; i < telling.played.size(); ++i) {
        const Seconds length = between(chance, 20, 60);
        const Seconds step = between(chance, 5, 8);
        const Seconds each = between(chance, shortest_pass_ms, longest_pass_ms);
        const auto& note = telling.played[i];
        if (!note.slid) continue;
        if (bends) {
            bend_to(telling, i, length, step);
        } else {
            pass_frets(telling, i, each);
        }
        Told slid;
        slid.string = note.string;
        slid.key = note.key;
        slid.velocity = note.velocity;
        slid.on = note.on + telling.delay_of(note.key);
        slid.off = slid.on + (note.off - note.on);
        telling.done(Fault::slide, slid);
    }
}

void sway(Telling& telling) {
    if (telling.rough.one_channel) return;
    constexpr Seconds long_note{0.600};
    constexpr Seconds settled{0.250};
    constexpr Seconds step{0.012};
    Chance chance = telling.chance_for(Fault::vibrato);
    for (std::size_t i = 0; i < telling.played.size(); ++i) {
        const bool happens = chance.uniform() < telling.rough.vibrato;
        const double depth = 0.10 + 0.25 * chance.uniform();
        const double rate = 5 + chance.uniform();
        if (!happens || telling.played[i].dropped || telling.played[i].slid) continue;
        // Of a double trigger what is told last sways.
        Told& told = telling.told[*telling.told_by[i]];
        if (!told.bends.empty() || told.off - told.on <= long_note) continue;
        for (Seconds t = settled; told.on + t < told.off; t += step) {
            const double phase = 2 * std::numbers::pi * rate * (t - settled).count();
            const double value = depth * std::sin(phase) / telling.rough.bend_range * 8192;
            told.bends.push_back({told.on + t, static_cast<int>(std::lround(value))});
        }
        telling.done(Fault::vibrato, told);
    }
}

}  // namespace compline::simulate
