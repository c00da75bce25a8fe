#pragma once

#include <compline/harmony/pitch.hpp>
#include <compline/text/bad_input.hpp>

#include <bitset>
#include <initializer_list>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace compline::harmony {

/// What a chord symbol says about the chord before any alteration, root aside. One row of the table
/// in quality.hpp each, in the same order.
enum class Quality {
    major,
    minor,
    diminished,
    augmented,
    suspended_second,
    suspended_fourth,
    power,
    sixth,
    six_nine,
    suspended_sixth,
    minor_sixth,
    minor_six_nine,
    major_seventh,
    major_ninth,
    major_eleventh,
    major_thirteenth,
    suspended_major_seventh,
    suspended_major_ninth,
    dominant_seventh,
    dominant_ninth,
    dominant_eleventh,
    dominant_thirteenth,
    altered,
    suspended_seventh,
    suspended_ninth,
    suspended_thirteenth,
    suspended_second_seventh,
    minor_seventh,
    minor_ninth,
    minor_eleventh,
    minor_thirteenth,
    minor_major_seventh,
    minor_major_ninth,
    minor_major_eleventh,
    minor_major_thirteenth,
    half_diminished,
    half_diminished_ninth,
    half_diminished_eleventh,
    diminished_seventh,
    diminished_major_seventh,
};

/// What a symbol alters, adds or leaves out. One row of the second table in quality.hpp each, in
/// the same order, which is the order they are printed in.
enum class Alteration {
    flat_five,
    sharp_five,
    flat_six,
    flat_nine,
    sharp_nine,
    sharp_eleven,
    flat_thirteen,
    added_nine,
    added_eleven,
    added_thirteen,
    no_third,
    no_fifth,
};

/// A set of alterations, in no order: C7#11b9 is C7b9#11.
class Alterations {
  public:
    static constexpr std::size_t kinds = 12;

    Alterations() = default;
    Alterations(std::initializer_list<Alteration> all) {
        for (const auto one : all) insert(one);
    }
    void insert(Alteration one) { set_.set(static_cast<std::size_t>(one)); }
    void erase(Alteration one) { set_.reset(static_cast<std::size_t>(one)); }
    [[nodiscard]] bool has(Alteration one) const { return set_[static_cast<std::size_t>(one)]; }
    [[nodiscard]] bool none() const { return set_.none(); }
    bool operator==(const Alterations&) const = default;

  private:
    std::bitset<kinds> set_;
};

/// A chord symbol, read: root, quality, alterations, and a bass note where the symbol has a slash.
/// Always in its simplest form: a minor seventh with a flat fifth is half-diminished, a seventh
/// with an added ninth a ninth chord. read_chord and simplest() see to that.
struct Chord {
    Spelling root;
    Quality quality = Quality::major;
    Alterations alterations;
    std::optional<Spelling> bass;

    /// The one printing of this chord ("E♭maj7", "Bm7♭5", "C7/E"), the same for every spelling of
    /// it. Two chords are the same change when these agree.
    [[nodiscard]] std::string symbol(Accidentals style = Accidentals::symbols) const;
    bool operator==(const Chord&) const = default;
};

/// The same chord with its quality and alterations in their simplest form.
[[nodiscard]] Chord simplest(Chord chord);

/// Reads a chord symbol such as "Bbm7b5", "E♭6/9", "C7(b9,#11)" or "C7/E". The grammar is set out
/// in charts/README.md. Throws text::BadInput, which points at the character and says what could
/// stand there.
[[nodiscard]] Chord read_chord(std::string_view symbol);

}  // namespace compline::harmony
