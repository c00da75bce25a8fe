#include "picked_note.hpp"

#include <compline/practice/pickup_delay.hpp>

#include <algorithm>

namespace compline::practice {

using time::Seconds;

namespace {

constexpr Seconds earliest = time::from_milliseconds(-20);
constexpr Seconds latest_note = time::from_milliseconds(80);

/// The sound nearest to a note, of those it may belong to.
std::optional<std::size_t> nearest_sound(const std::vector<Seconds>& sounds, Seconds note_on) {
    std::optional<std::size_t> nearest;
    const auto first = std::lower_bound(sounds.begin(), sounds.end(), note_on - latest_note);
    for (auto sound = first; sound != sounds.end() && *sound <= note_on - earliest; ++sound) {
        const auto index = static_cast<std::size_t>(sound - sounds.begin());
        if (!nearest || abs(note_on - *sound) < abs(note_on - sounds[*nearest])) nearest = index;
    }
    return nearest;
}

}  // namespace

Pairs pair_up(std::span<const listen::SoundOnset> onsets, time::SampleRate rate,
              std::span<const listen::Note> notes) {
    std::vector<Seconds> sounds;
    for (const auto& onset : onsets) sounds.push_back(time::time_of(onset.at, rate));
    std::vector<std::vector<std::size_t>> near(sounds.size());
    Pairs found;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        if (notes[i].slid) continue;
        if (const auto sound = nearest_sound(sounds, notes[i].on)) {
            near[*sound].push_back(i);
        } else {
            ++found.notes_alone;
        }
    }
    for (std::size_t i = 0; i < sounds.size(); ++i) {
        if (near[i].empty()) {
            ++found.sounds_alone;
            continue;
        }
        const auto& note = notes[picked_of(notes, near[i])];
        found.pairs.push_back({sounds[i], note.on, note.note, note.velocity, note.string});
        found.notes_alone += static_cast<int>(near[i].size()) - 1;
    }
    return found;
}

}  // namespace compline::practice
