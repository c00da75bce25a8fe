#include "bass_changes.hpp"

#include <algorithm>

namespace compline::band {

namespace {

using time::quarter_note;
using time::Ticks;

Ticks next_beat(Ticks at) {
    const auto into = at % quarter_note;
    return into == Ticks(0) ? at : at + quarter_note - into;
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

std::vector<ChordToPlay> changes_of(const std::vector<BassBar>& bars, std::size_t seam,
                                    time::Meter meter) {
    std::vector<ChordToPlay> changes;
    const std::optional<harmony::Chord>* last = nullptr;
    for (std::size_t i = 0; i < bars.size(); ++i) {
        const Ticks line = meter.bar() * static_cast<std::int64_t>(i);
        for (const auto& slot : bars[i].chords) {
            const Ticks from = line + next_beat(slot.start);
            const Ticks to = line + next_beat(slot.start + slot.length);
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
