#pragma once

#include <compline/harmony/pitch.hpp>

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace compline::harmony {

/// What a chord symbol says about the chord, root aside. One row of the table in quality.hpp each.
enum class Quality {
    major,
    minor,
    diminished,
    augmented,
    suspended_second,
    suspended_fourth,
    sixth,
    six_nine,
    minor_sixth,
    major_seventh,
    dominant_seventh,
    dominant_ninth,
    dominant_thirteenth,
    minor_seventh,
    minor_ninth,
    half_diminished,
    diminished_seventh,
    dominant_flat_nine,
    dominant_sharp_five,
    dominant_suspended,
};

/// A chord symbol, read: root, quality, and a bass note where the symbol has a slash.
struct Chord {
    Spelling root;
    Quality quality = Quality::major;
    std::optional<Spelling> bass;

    /// The one printing of this chord ("E♭maj7", "Bm7♭5", "C7/E"), the same for every spelling of
    /// its quality. Two chords are the same change when these agree.
    [[nodiscard]] std::string symbol(Accidentals style = Accidentals::symbols) const;
    bool operator==(const Chord&) const = default;
};

/// A symbol that is not one. `position` is a byte offset into the symbol.
class ChordError : public std::runtime_error {
  public:
    ChordError(std::size_t position, const std::string& what)
        : std::runtime_error(what), position_(position) {}
    [[nodiscard]] std::size_t position() const { return position_; }

  private:
    std::size_t position_;
};

/// Reads a chord symbol such as "Bbm7b5", "E♭6/9" or "C7/E". Throws ChordError.
[[nodiscard]] Chord read_chord(std::string_view symbol);

}  // namespace compline::harmony
