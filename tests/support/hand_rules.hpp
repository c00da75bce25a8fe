#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/guitar/grip.hpp>
#include <compline/guitar/hand.hpp>

#include <string>

namespace compline::tests {

/// What is wrong with a grip, to a teacher who looks at the hands: empty when a hand can hold it
/// and strike it. Written from the rules of thumb alone; it shares nothing with what makes grips.
[[nodiscard]] std::string fault_of(const guitar::Grip& grip, const guitar::Fretboard& fretboard,
                                   const guitar::Hands& hands);

}  // namespace compline::tests
