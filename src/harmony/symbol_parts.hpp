#pragma once

#include <compline/harmony/chord.hpp>

#include <cstddef>
#include <string_view>

namespace compline::harmony {

/// What stands first after the root.
enum class Mark { none, major, minor, diminished, half_diminished, augmented };
enum class Suspension { none, second, fourth };

inline constexpr int six_nine = 69;
inline constexpr std::string_view known_suspensions =
    "known with sus: sus2 sus4 6sus4 7sus2 7sus4 9sus4 13sus4 maj7sus4 maj9sus4";

/// What a symbol says, before it is given a quality.
struct SymbolParts {
    std::string_view symbol;
    std::size_t quality_at = 0;  ///< in the symbol, behind the root
    Mark word = Mark::none;
    bool major_seventh = false;
    int number = 0;  ///< 2, 5, 6, 69, 7, 9, 11, 13; 0: none
    Suspension suspension = Suspension::none;
    bool altered = false;
    bool bare = false;  ///< a tone altered, not one added: b9, not addb9
    Alterations alterations;

    /// Throws where it is there: `text` at `place` says it once more.
    void insert(Alteration alteration, std::size_t place, std::string_view text);
};

/// Throws text::BadInput: the symbol is no chord, from `place` on.
[[noreturn]] void fail_symbol(std::string_view symbol, std::size_t place, std::string_view why);

/// The quality that the parts make; tones that no quality has are added to the alterations. Throws
/// text::BadInput where they make none.
[[nodiscard]] Quality quality_of(SymbolParts& parts);

}  // namespace compline::harmony
