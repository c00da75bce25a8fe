#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace compline::harmony {

/// A MIDI note number, 0 to 127; 60 is C4, 69 is A4 (440 Hz by ISO 16, equal temperament).
class MidiNote {
  public:
    constexpr explicit MidiNote(int number) : number_(number) {}
    [[nodiscard]] constexpr int number() const { return number_; }
    /// 0 = C ... 11 = B.
    [[nodiscard]] constexpr int pitch_class() const { return (number_ % 12 + 12) % 12; }
    [[nodiscard]] double hz() const;
    auto operator<=>(const MidiNote&) const = default;

  private:
    int number_;
};

enum class Letter { C, D, E, F, G, A, B };

/// How the names of accidentals are written: with the signs (♭ ♯), or in plain letters (b #).
enum class Accidentals { symbols, letters };

/// A spelled pitch class: C♯ and D♭ sound the same and are not the same.
struct Spelling {
    Letter letter = Letter::C;
    int accidental = 0;  ///< -2 double flat ... +2 double sharp; chord tones may need 3

    /// 0 = C ... 11 = B.
    [[nodiscard]] int pitch_class() const;
    [[nodiscard]] std::string name(Accidentals style = Accidentals::symbols) const;
    bool operator==(const Spelling&) const = default;
};

/// Reads a note name at the start of `text`: a letter A-G and up to two of b, #, ♭, ♯ (or 𝄫, 𝄪).
/// `length` receives how many bytes were read. Nothing when `text` does not start with a letter
/// A-G.
[[nodiscard]] std::optional<Spelling> read_spelling(std::string_view text, std::size_t& length);

/// A degree above a root as musicians write it: 3, b7, #11. `number` is 1 to 13, `alteration` in
/// semitones from the major or perfect interval (b7 is {7, -1}, the diminished seventh {7, -2}).
struct Degree {
    int number = 1;
    int alteration = 0;

    /// Semitones above the root, within an octave: 0 to 11.
    [[nodiscard]] int pitch_class() const;
    /// "b7", "#11", "bb7"; with symbols "♭7", "♭♭7".
    [[nodiscard]] std::string name(Accidentals style = Accidentals::letters) const;
    bool operator==(const Degree&) const = default;
};

/// The note a degree above a root, properly spelled: the ♭7 of C is B♭, the 3 of F♯ is A♯.
[[nodiscard]] Spelling spell(const Spelling& root, const Degree& degree);

/// "C4", "B♭3": a note number in the given spelling's name. The octave belongs to the letter:
/// B♯3 sounds as C4 does.
[[nodiscard]] std::string note_name(MidiNote note, const Spelling& spelling,
                                    Accidentals style = Accidentals::symbols);

}  // namespace compline::harmony
