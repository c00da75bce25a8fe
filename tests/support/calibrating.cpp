#include "calibrating.hpp"

#include <algorithm>
#include <cmath>

namespace compline::tests {

namespace {

double cycle_ms(int note) { return 1000 / (440 * std::pow(2, (note - 69) / 12.0)); }

listen::Note note_at(double ms, int note, int velocity) {
    listen::Note one;
    one.on = time::from_milliseconds(ms);
    one.off = one.on + time::Seconds(0.2);
    one.note = harmony::MidiNote(note);
    one.velocity = velocity;
    return one;
}

}  // namespace

double TruePickup::delay_ms(int string, int note) const {
    const auto own = string_ms.find(string);
    return constant_ms + cycles * cycle_ms(note) + (own == string_ms.end() ? 0 : own->second);
}

std::vector<listen::Note> TruePickup::sent(const std::vector<Pluck>& played,
                                           simulate::Chance& chance) const {
    std::vector<listen::Note> notes;
    for (const auto& pluck : played) {
        const int number = pluck.note.number();
        const double at = pluck.at.milliseconds() + delay_ms(pluck.string, number);
        const int velocity = pluck.level_db > -15 ? 100 : 40;
        if (chance.uniform() < ghosts) {
            const int other = pluck.string % 6 + 1;
            const double beside = at - 10 + 30 * chance.uniform();
            notes.push_back(note_at(beside, open_notes[other - 1], velocity / 5));
            if (strings) notes.back().string = other;
        }
        if (chance.uniform() < missed) continue;
        notes.push_back(note_at(at + noise_ms * chance.scatter(), number, velocity));
        if (strings) notes.back().string = pluck.string;
    }
    std::stable_sort(notes.begin(), notes.end(),
                     [](const auto& a, const auto& b) { return a.on < b.on; });
    return notes;
}

std::vector<Pluck> notes_by_string(int on_each, simulate::Chance& chance) {
    std::vector<Pluck> played;
    time::Seconds at(0.5);
    for (int string = 6; string >= 1; --string) {
        for (int i = 0; i < on_each; ++i) {
            const int note = open_notes[string - 1] + (i % 2 == 0 ? 0 : 12);
            const double level = i % 4 < 2 ? -8 : -26;
            played.push_back({at, string, harmony::MidiNote(note), level, time::Seconds(0.25)});
            at += time::Seconds(0.35 + 0.2 * chance.uniform());
        }
    }
    return played;
}

std::vector<Pluck> on_clicks(int on_each, double place_ms, double uneven_ms,
                             simulate::Chance& chance) {
    std::vector<Pluck> played;
    int click = 0;
    for (int string = 6; string >= 1; --string) {
        for (int i = 0; i < on_each; ++i) {
            const double off = place_ms + uneven_ms * chance.scatter();
            const int note = open_notes[string - 1] + (i % 2 == 0 ? 0 : 12);
            played.push_back({time::Seconds(++click) + time::from_milliseconds(off), string,
                              harmony::MidiNote(note), -8, time::Seconds(0.5)});
        }
    }
    return played;
}

std::vector<listen::SoundOnset> heard(const std::vector<Pluck>& played, time::SampleRate rate) {
    std::vector<listen::SoundOnset> onsets;
    for (const auto& pluck : played) {
        onsets.push_back({time::nearest_frame(pluck.at, rate), pluck.level_db});
    }
    return onsets;
}

}  // namespace compline::tests
