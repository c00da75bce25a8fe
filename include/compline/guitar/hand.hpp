#pragma once

#include <compline/guitar/grip.hpp>

#include <vector>

namespace compline::guitar {

// What hands can hold: of a chord shape all the ways to finger it. Common practice, no source; the
// numbers are those of an adult hand on a full scale.
//
//   - Four fingers; a higher finger never frets lower on the neck. On one fret they may come in
//     either order.
//   - Highest less lowest fret: 3 at most below fret 5, 4 from there on.
//   - Neighbouring fingers: index and middle two frets apart at most, middle and ring, ring and
//     little one; two where the lower of them is above fret 7.
//   - The index may lie across any strings, whatever other fingers hold higher up within; the
//     other fingers across three at most, with nothing else within.
//   - The thumb, where it is asked for, frets the lowest string, at most a fret from the lowest
//     fret of the fingers.
// Frets here are counted from the nut, so that a capo moves these limits as it moves the hand.

/// A pick strikes all strings between its first and last, so that a string muted among them must be
/// touched by a finger on the string beside it, and there is one at most; fingers leave out what
/// they like.
enum class RightHand { pick, fingers };

struct Hands {
    bool thumb = false;  ///< may fret the lowest string
    RightHand right = RightHand::pick;
    bool operator==(const Hands&) const = default;
};

/// Highest less lowest fret that a hand spans, its lowest on this fret, counted from the capo.
[[nodiscard]] int widest_span(int lowest_fret, int capo);

/// Whether the right hand can strike these strings and no others, if the left holds what it must.
[[nodiscard]] bool can_strike(const Shape& shape, RightHand hand);

/// The ways to finger a shape, in a fixed order; none when hands cannot hold it. `capo`: the fret
/// it lies on, 0 for none.
[[nodiscard]] std::vector<Grip> fingerings(const Shape& shape, const Hands& hands, int capo = 0);

}  // namespace compline::guitar
