#include "cleaning.hpp"

#include <compline/listen/strum.hpp>

#include <algorithm>
#include <cstdlib>

namespace compline::listen {

namespace {

using time::Seconds;

constexpr int octave = 12;
constexpr int twelfth = 19;
constexpr Seconds at_once{0.010};  // between a flicker's end and the real note

bool same_string(const Note& a, const Note& b) { return a.string == b.string; }

/// The next note on the same string, or the end.
std::size_t next_on_string(const std::vector<Note>& notes, std::size_t i) {
    std::size_t j = i + 1;
    while (j < notes.size() && !same_string(notes[i], notes[j])) ++j;
    return j;
}

/// The detector took an overtone for the note at first: the real note began with the flicker.
int drop_flickers(std::vector<Note>& notes, const Settings& settings) {
    std::vector<bool> drop(notes.size(), false);
    for (std::size_t i = 0; i < notes.size(); ++i) {
        if (!notes[i].string || notes[i].length() > settings.flicker) continue;
        const std::size_t j = next_on_string(notes, i);
        if (j == notes.size() || notes[j].on - notes[i].off > at_once) continue;
        const int apart = std::abs(notes[i].note.number() - notes[j].note.number());
        if (apart != octave && apart != twelfth) continue;
        drop[i] = true;
        notes[j].on = notes[i].on;
        notes[j].velocity = std::max(notes[i].velocity, notes[j].velocity);
    }
    std::size_t at = 0;
    const auto dropped = std::erase_if(notes, [&](const Note&) { return drop[at++]; });
    std::stable_sort(notes.begin(), notes.end(),
                     [](const Note& a, const Note& b) { return a.on < b.on; });
    return static_cast<int>(dropped);
}

/// One pick, reported twice: the first onset stands, and rings as long as the second.
int join_double_triggers(std::vector<Note>& notes, const Settings& settings) {
    std::vector<bool> drop(notes.size(), false);
    for (std::size_t i = 0; i < notes.size(); ++i) {
        if (drop[i]) continue;
        for (std::size_t j = i + 1; j < notes.size(); ++j) {
            if (notes[j].on - notes[i].on > settings.double_trigger) break;
            if (drop[j] || notes[j].note != notes[i].note || !same_string(notes[i], notes[j]))
                continue;
            if (notes[j].slid) continue;
            drop[j] = true;
            notes[i].off = std::max(notes[i].off, notes[j].off);
        }
    }
    std::size_t at = 0;
    return static_cast<int>(std::erase_if(notes, [&](const Note&) { return drop[at++]; }));
}

int median_velocity(const Strum& strum) {
    std::vector<int> velocities;
    for (const Note& note : strum.notes) velocities.push_back(note.velocity);
    const auto middle = velocities.begin() + static_cast<long>(velocities.size() / 2);
    std::nth_element(velocities.begin(), middle, velocities.end());
    return *middle;
}

/// A brushed string or a lifted finger: short and soft beside the notes struck with it.
int drop_ghosts(std::vector<Note>& notes, const Settings& settings) {
    std::vector<Note> kept;
    for (const Strum& strum : group_strums(notes)) {
        const double floor = settings.ghost_loudness * median_velocity(strum);
        for (const Note& note : strum.notes) {
            const bool ghost = note.length() < settings.ghost_length && note.velocity < floor;
            if (!ghost) kept.push_back(note);
        }
    }
    const auto dropped = static_cast<int>(notes.size() - kept.size());
    notes = std::move(kept);
    return dropped;
}

}  // namespace

Cleaned clean(std::vector<Note>& notes, const Settings& settings) {
    Cleaned cleaned;
    cleaned.flickers = drop_flickers(notes, settings);
    cleaned.double_triggers = join_double_triggers(notes, settings);
    cleaned.ghosts = drop_ghosts(notes, settings);
    return cleaned;
}

}  // namespace compline::listen
