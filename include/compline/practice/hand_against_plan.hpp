#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/guitar/grip.hpp>
#include <compline/guitar/move.hpp>
#include <compline/harmony/chord.hpp>
#include <compline/time/units.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::guitar {
class NearGrips;
struct VoicingPlan;
}  // namespace compline::guitar

namespace compline::practice {

struct Report;

// What the hand did in a take, beside a plan of voicings. A take says strings and frets; the
// fingers are the kindest there are (guitar::likely_fingers), so that the hand went at least so
// far. How far is measured as plans measure it (guitar::Move): the frets that fingers travel, all
// fingers together. A finger that comes down from the air or lifts travels none.
//
// A move goes from the grip in which one change landed to that of the next, with the right tones
// both; a chord that was held is a move of no fret. Where one of the two was not struck, or wrong,
// there is no move, and the plan's does not count either: both sums are of the same moves.

/// A grip that lies nearer than the one that was taken.
struct NearerGrip {
    guitar::Grip grip;
    guitar::Move move;  ///< from the grip that the hand was in
    /// Guide fingers of this move, which lifted on the way that was taken: they could have stayed
    /// or slid.
    std::vector<guitar::FingerMove> guides;
};

/// The moves into one change of the form, over all times through.
struct HandMove {
    int bar = 1;           ///< number in the unrolled form
    time::BeatOfBar beat;  ///< from 1
    harmony::Chord from;
    harmony::Chord to;
    int of = 0;              ///< moves here, in all times through
    double frets = 0;        ///< that fingers travelled, the mean of them
    double plan_frets = 0;   ///< the plan's, of the same
    double guided = 0;       ///< share of them in which a finger stayed or slid
    double plan_guided = 0;  ///< the plan's
    // The usual way: of all ways the one most often taken; of several the first.
    int times = 0;  ///< it was taken
    guitar::Grip held_before;
    guitar::Grip held;
    guitar::Move move;
    guitar::Grip planned_before;
    guitar::Grip planned;
    guitar::Move plan_move;
    std::optional<NearerGrip> nearer;  ///< none: nothing that a plan would take is nearer

    /// What the hand went beyond the plan; below 0: less than the plan.
    [[nodiscard]] double beyond() const { return frets - plan_frets; }
};

/// Changes without a grip to go by.
struct PassedOver {
    int not_struck = 0;  ///< laid out, missed or astray
    int wrong = 0;       ///< tones wrong or missing
    int uncertain = 0;   ///< sound or the cable was away there
    int no_hand = 0;     ///< no fingers are known for what rang (see guitar/hand.hpp)
    int no_plan = 0;     ///< the plan has nothing there
    [[nodiscard]] int all() const { return not_struck + wrong + uncertain + no_hand + no_plan; }
};

/// A time through, added up over its changes: each counts with the mean of its moves.
struct HandTotals {
    double frets = 0;
    double guided = 0;
};

/// Why nothing can be said of the hand.
enum class HandUnknown { no, one_channel, by_sound };

struct HandAgainstPlan {
    HandUnknown unknown = HandUnknown::no;
    std::vector<HandMove> moves;  ///< in order of the form
    HandTotals hand;
    HandTotals plan;
    int changes = 0;  ///< judged, in all times through
    PassedOver passed;
    guitar::Fretboard fretboard = guitar::Fretboard::standard();
    std::string voicings = {};  ///< the plan's, in words of --voicings; empty: as plans are unasked

    /// Those that went beyond the plan, the furthest first.
    [[nodiscard]] std::vector<HandMove> furthest() const;
};

/// Sets the hand of a take beside a plan for the same form and guitar. `near`: where nearer grips
/// are looked for, of the plan's own wishes; null: they are not. Deterministic.
[[nodiscard]] HandAgainstPlan hand_against_plan(const Report& report,
                                                const guitar::VoicingPlan& plan,
                                                guitar::NearGrips* near);

}  // namespace compline::practice
