#pragma once

#include "plucked.hpp"

#include <compline/listen/note.hpp>
#include <compline/listen/sound_onsets.hpp>
#include <compline/simulate/chance.hpp>
#include <compline/time/units.hpp>

#include <cstdint>
#include <map>
#include <vector>

namespace compline::tests {

/// A MIDI pickup whose delay is known, because it is made up here. It shares nothing with what
/// measures it but the notes: frequencies are reckoned anew.
struct TruePickup {
    double constant_ms = 6;
    double cycles = 1.5;
    std::map<int, double> string_ms;  ///< what a string adds
    double noise_ms = 1;              ///< standard deviation of a note-on
    double missed = 0.05;             ///< share of notes that are not sent
    double ghosts = 0.05;             ///< share of notes with a soft one on another string besides
    bool strings = true;              ///< a channel for each

    /// What is to be taken off a note, in ms.
    [[nodiscard]] double delay_ms(int string, int note) const;
    /// The largest error, in ms, of what `found` takes off, over all notes of six strings in
    /// standard tuning, 22 frets each.
    template <typename Found>
    [[nodiscard]] double worst_error_ms(Found found) const;
    /// The note-ons for notes that began at these times, in order of time.
    [[nodiscard]] std::vector<listen::Note> sent(const std::vector<Pluck>& played,
                                                 simulate::Chance& chance) const;
};

inline constexpr int open_notes[6] = {64, 59, 55, 50, 45, 40};

template <typename Found>
double TruePickup::worst_error_ms(Found found) const {
    double worst = 0;
    for (int string = 1; string <= 6; ++string) {
        for (int fret = 0; fret <= 22; ++fret) {
            const int note = open_notes[string - 1] + fret;
            const double error = found(string, note) - delay_ms(string, note);
            worst = std::max(worst, error < 0 ? -error : error);
        }
    }
    return worst;
}

/// So many notes on each string, one after the other: open and twelfth fret in turn, soft and hard,
/// unevenly apart.
[[nodiscard]] std::vector<Pluck> notes_by_string(int on_each, simulate::Chance& chance);

/// On clicks a second apart, with the player's own place and unevenness.
[[nodiscard]] std::vector<Pluck> on_clicks(int on_each, double place_ms, double uneven_ms,
                                           simulate::Chance& chance);

/// Their beginnings in sound, as a perfect ear hears them.
[[nodiscard]] std::vector<listen::SoundOnset> heard(const std::vector<Pluck>& played,
                                                    time::SampleRate rate);

}  // namespace compline::tests
