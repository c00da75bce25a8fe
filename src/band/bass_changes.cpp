#include "bass_changes.hpp"

#include "bar_grid.hpp"

#include <algorithm>

namespace compline::band {

namespace {

using time::Ticks;

/// The next beat; the end of a bar may be behind a fermata.
Ticks next_beat(Ticks at, const BassBar& bar) {
    if (at >= bar.meter.bar()) return bar.length();
    const auto step = chord_step(bar.meter);
    const auto into = at % step;
    return into == Ticks(0) ? at : at + step - into;
}

/// How loudly a chord speaks for the key; two next door and two farther off come to 6.
constexpr int near_by = 1;
constexpr int next_door = 2;
constexpr int outweighs_all = 8;

/// Two chords are of one key when neither speaks twice against the other, as far as one can tell.
bool agree(const BassTones& one, const BassTones& other) {
    int against = 0;
    for (int tone = 0; tone < 12; ++tone) {
        against += one.contradicted.has(tone) && other.named.has(tone) ? 1 : 0;
    }
    return against < 2;
}

/// A plain dominant whose root falls a fifth.
bool resolves(const BassTones& from, const BassTones& to) {
    return from.blue_third && (to.root - from.root + 12) % 12 == 5;
}

/// The chords of its key around a change, nearer ones counting double. What a dominant falls to
/// says more than all the others: it is the dominant of that, wherever the tune has been before.
KeyProfile around(const std::vector<ChordToPlay>& changes, std::size_t here) {
    KeyProfile heard{};
    const std::size_t first = here < 2 ? 0 : here - 2;
    for (std::size_t there = first; there < std::min(here + 3, changes.size()); ++there) {
        const auto& tones = changes[there].tones;
        if (there == here || !tones || !agree(*changes[here].tones, *tones)) continue;
        const bool beside = there + 1 == here || there == here + 1;
        const bool aim = there == here + 1 && resolves(*changes[here].tones, *tones);
        for (int tone = 0; tone < 12; ++tone) {
            if (!tones->named.has(tone)) continue;
            heard[static_cast<std::size_t>(tone)] += aim      ? outweighs_all
                                                     : beside ? next_door
                                                              : near_by;
        }
    }
    return heard;
}

void find_scales(std::vector<ChordToPlay>& changes) {
    for (std::size_t i = 0; i < changes.size(); ++i) {
        if (changes[i].tones) changes[i].scale = changes[i].tones->scale(around(changes, i));
    }
}

}  // namespace

Ticks chord_step(const time::Meter& meter) {
    const BarGrid grid(meter);
    return grid.compound ? grid.pulse : std::min(grid.pulse, time::quarter_note);
}

std::vector<Ticks> lines_of(const std::vector<BassBar>& bars) {
    std::vector<Ticks> lines{Ticks(0)};
    lines.reserve(bars.size() + 1);
    for (const auto& bar : bars) lines.push_back(lines.back() + bar.length());
    return lines;
}

std::vector<ChordToPlay> changes_of(const std::vector<BassBar>& bars, std::size_t seam) {
    const auto lines = lines_of(bars);
    std::vector<ChordToPlay> changes;
    const std::optional<harmony::Chord>* last = nullptr;
    for (std::size_t i = 0; i < bars.size(); ++i) {
        for (const auto& slot : bars[i].chords) {
            const Ticks from = lines[i] + next_beat(slot.start, bars[i]);
            const Ticks to = lines[i] + next_beat(slot.start + slot.length, bars[i]);
            if (from == to) continue;
            const bool seam_here = slot.start == Ticks(0) && (i == 0 || i == seam);
            if (last != nullptr && *last == slot.chord && !seam_here) {
                changes.back().to = to;
            } else {
                changes.push_back({from, to, {}, {}});
                if (slot.chord) changes.back().tones.emplace(*slot.chord);
            }
            last = &slot.chord;
        }
    }
    find_scales(changes);
    return changes;
}

}  // namespace compline::band
