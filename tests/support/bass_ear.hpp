#pragma once

#include <compline/band/band.hpp>
#include <compline/chart/form.hpp>

#include <cstdint>
#include <string>
#include <vector>

namespace compline::tests {

/// What a symbol means to the left hand of a bass player, in semitones above its root: a table of
/// its own, that shares nothing with the harmony library.
struct BassChord {
    std::vector<int> tones;    ///< to rest on
    std::vector<int> against;  ///< never on a strong beat
    std::vector<int> never;    ///< on no beat
    bool plain_dominant = false;
};
/// `quality`: the symbol without root and slash bass, in letters. Fails the test where the table
/// does not have it.
[[nodiscard]] const BassChord& bass_chord(const std::string& quality);

/// A note of the bass and what is going on while it sounds.
struct HeardBass {
    int note = 0;
    time::Ticks at;      ///< from bar 1 beat 1 of the first time through
    time::Ticks in_bar;  ///< from its bar line
    time::Ticks length;
    int bar = 1;  ///< of the form
    bool dead = false;
    bool short_one = false;    ///< between two beats
    bool kick = false;         ///< of the whole band
    std::string symbol;        ///< the chord's; empty in N.C.
    int above_root = 0;        ///< semitones, 0 to 11
    bool slash_bass = false;   ///< the note that the slash asks for
    time::Ticks chord_starts;  ///< as `at`
    time::Ticks chord_ends;
    BassChord chord;

    [[nodiscard]] bool is_one_of(const std::vector<int>& semitones) const;
    [[nodiscard]] bool rests() const { return slash_bass || is_one_of(chord.tones); }
    /// On the last beat before another chord.
    [[nodiscard]] bool is_last_quarter() const;
};

/// All that the bass plays; times through of the whole form.
[[nodiscard]] std::vector<HeardBass> hear_bass(const roadmap::RoadMap& map,
                                               const band::Players& players);

/// The form some times, at its own tempo.
[[nodiscard]] std::vector<HeardBass> hear_bass(const chart::Form& form,
                                               const chart::AskedManner& manner, std::uint64_t seed,
                                               int times = 1);

/// The notes on beats, and what is struck with all of the band.
[[nodiscard]] std::vector<HeardBass> without_short_ones(std::vector<HeardBass> line);

}  // namespace compline::tests
