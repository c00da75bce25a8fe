#include "candidates.hpp"
#include "refusals.hpp"

#include <compline/guitar/hand.hpp>
#include <compline/guitar/pinning.hpp>

#include <fmt/format.h>

namespace compline::guitar {

std::optional<std::string> why_not_pinned(const Fretboard& fretboard, const Shape& shape,
                                          const harmony::Palette& palette) {
    if (shape.strings != fretboard.strings()) {
        return fmt::format("which has {} strings; the guitar has {}", shape.strings,
                           fretboard.strings());
    }
    for (const auto& place : shape.places()) {
        if (place.fret <= fretboard.frets()) continue;
        return fmt::format("but there is no fret {}; the highest is {}", place.fret,
                           fretboard.frets());
    }
    if (!is_right(fretboard, shape, palette)) return wrong_with(fretboard, shape, palette);
    if (fingerings(shape, {true, RightHand::fingers}, fretboard.capo()).empty()) {
        return "which no hand can hold";
    }
    return std::nullopt;
}

}  // namespace compline::guitar
