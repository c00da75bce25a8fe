#pragma once

#include <compline/guitar/shape.hpp>
#include <compline/harmony/chord.hpp>

#include <bitset>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::measure {

// What a chord symbol says, read off its print by tables that share nothing with harmony/quality:
// who checks the planner and the bass by their own tables proves nothing.

/// Semitones above a root, or above C.
using Semitones = std::bitset<12>;
[[nodiscard]] inline bool has(const Semitones& set, int at) {
    return set[static_cast<std::size_t>(at)];
}

struct ChordSpelling {
    std::string symbol;
    int root = 0;              ///< 0 = C
    std::optional<int> bass;   ///< of a slash chord, above the root
    std::optional<int> third;  ///< or the fourth or second of a sus; above the root, as all below
    Semitones fifths;
    std::optional<int> seventh;  ///< or the sixth
    bool sixth = false;          ///< it is one
    bool diminished = false;     ///< any three of its four tones make it, the root among them
    bool sus = false;            ///< also an eleventh chord, whose third is mostly left out
    bool dominant = false;
    /// Written tensions and sixths that are to be heard: one of each set. Of a stacked chord the
    /// highest natural one, and all that are altered.
    std::vector<Semitones> colours;
    Semitones stack;      ///< tensions that a stacked chord has below its highest one
    Semitones forbidden;  ///< what would make another chord of it

    /// Root, third, fifths, seventh or sixth, and the slash bass.
    [[nodiscard]] Semitones chord_tones() const;
    /// All that the symbol asks for.
    [[nodiscard]] Semitones asked() const;
    [[nodiscard]] bool minor_seventh() const { return third == 3 && seventh == 10; }
};

[[nodiscard]] ChordSpelling spell_out(const harmony::Chord& chord);

/// The same of a symbol's words behind its root, letters for accidentals ("m7b5", "7b9", "6/9").
/// Throws std::invalid_argument for words it does not know.
[[nodiscard]] ChordSpelling spell_out_words(std::string_view words);

/// MIDI numbers of a shape in standard tuning, ascending.
[[nodiscard]] std::vector<int> notes_of(const guitar::Shape& shape);

/// Which tones of the chord those are, in semitones above its root.
[[nodiscard]] Semitones above_root(const std::vector<int>& notes, const ChordSpelling& chord);

/// Moved up by so many semitones, round the octave.
[[nodiscard]] Semitones moved(const Semitones& set, int by);

}  // namespace compline::measure
