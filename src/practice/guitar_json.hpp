#pragma once

#include "json_value.hpp"

#include <compline/guitar/fretboard.hpp>

namespace compline::practice {

/// A guitar's neck as takes keep it: MIDI notes of the open strings, from string 1 on and without
/// the capo; the highest fret from the nut; the fret of the capo, 0: none.
[[nodiscard]] nlohmann::ordered_json to_json(const guitar::Fretboard& fretboard);
/// Throws text::BadInput.
[[nodiscard]] guitar::Fretboard read_guitar(const JsonValue& json);

}  // namespace compline::practice
