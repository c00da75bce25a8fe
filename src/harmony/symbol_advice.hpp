#pragma once

#include <compline/harmony/chord.hpp>

#include <cstddef>
#include <string>
#include <string_view>

namespace compline::harmony {

// Words for symbols that are no lead-sheet notation, where what is meant can be told.

/// In capitals, small letters or both; `word` in small ones.
[[nodiscard]] bool begins_with_word(std::string_view text, std::string_view word);

/// What to write instead of what stands at the beginning of `rest`; empty when nothing is known.
[[nodiscard]] std::string_view advice_for(std::string_view rest);

/// Why a symbol has no root.
[[nodiscard]] std::string_view advice_for_root(std::string_view symbol);

/// Of a bass behind the slash at `slash` that is no note: C/3 is C/E, C7/4 perhaps C7sus4.
[[nodiscard]] std::string advice_for_bass(const Chord& above, std::string_view symbol,
                                          std::size_t slash);

/// Of a chord as annotations write it, a colon behind its root: A:min7 is Am7, C:maj7/3 Cmaj7/E.
/// Empty when the symbol is none.
[[nodiscard]] std::string advice_for_annotation(std::string_view symbol);

}  // namespace compline::harmony
