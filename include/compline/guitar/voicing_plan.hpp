#pragma once

#include <compline/guitar/effort.hpp>
#include <compline/guitar/fretboard.hpp>
#include <compline/guitar/grip.hpp>
#include <compline/guitar/hand.hpp>
#include <compline/guitar/move.hpp>
#include <compline/harmony/palette.hpp>
#include <compline/roadmap/changes.hpp>
#include <compline/text/bad_input.hpp>

#include <optional>
#include <stdexcept>
#include <string_view>
#include <vector>

namespace compline::guitar {

// Voicings in context: the path through a whole tune that asks least of the hand and sounds best.
// Every grip that a hand can hold and that is right to the judge in its place takes part (but for
// the line of guide tones, two notes that leave an altered fifth or an alteration to others); the
// path is the best there is, not a good one found by luck, choruses looping. Where a stretch of
// four bars or more comes back, its grips come back too, all but the first, which goes with the way
// in (2026-11-29: a player learns one A, not three): of the ways that the occurrences would have
// alone the one is taken that serves all of them best, and what is left free is chosen anew around
// it.
//
// In src/guitar, in this order: to_voice (what the place asks of a chord's sound), stops (for each
// chord all its grips, of forms, candidates and hand), ring (the way round that costs least),
// echoes and several_ways around it. effort.hpp has every weight with its reason, chord_sound
// weighs a grip's tones, packed_grip a move. All rules of taste are costs of a stop or of a move,
// never a choice by the side: so the search stays exact.

/// What a voicing is made of.
///
/// Three of them are steps of a ladder for learning a tune, each with the same thirds and sevenths
/// at the same frets, as far as hands allow: `shells`, `guide_tones`, `one_colour`.
enum class VoicingStyle {
    mixed,        ///< two to five notes of any kind
    shells,       ///< the root (or slash bass) lowest, and the defining tones
    guide_tones,  ///< third and seventh (or sixth) on two strings: one line through the whole form
    one_colour,   ///< these and one tone more, a colour where there is one
    four_note,    ///< four different tones
    rootless,     ///< no root: the bass has it
};
[[nodiscard]] std::string_view name_of(VoicingStyle style);
[[nodiscard]] std::optional<VoicingStyle> find_voicing_style(std::string_view name);

/// What the player asks for.
struct VoicingWishes {
    VoicingStyle style = VoicingStyle::mixed;
    /// That may sound; none: the inner ones (see usual_strings()), and all of them for a chord that
    /// has no grip there.
    std::vector<int> strings;
    RightHand right_hand = RightHand::pick;
    LowRoot low_root = LowRoot::indifferent;
    bool open_strings = false;
    bool thumb = false;             ///< may fret the lowest string
    std::optional<int> near_fret;   ///< the nearer to it, the better; none: the middle of the neck
    std::optional<int> position;    ///< all fretted notes of the plan within so many frets
    bool long_chords_move = false;  ///< a chord of two bars and more goes through its inversions
    harmony::Strictness strictness = harmony::Strictness::working;
};

/// The strings a style is for where nobody says: 5 to 2; shells 6 to 3, with their roots on 6 and
/// 5; guide tones 4 and 3. All of a guitar with fewer strings.
[[nodiscard]] std::vector<int> usual_strings(VoicingStyle style, int strings_of_guitar);

/// The wishes for the line of guide tones that belongs to voicings so wished for: on two of the
/// same strings, on strings 4 and 3 where these are none side by side.
[[nodiscard]] VoicingWishes guide_wishes(const VoicingWishes& wishes);

/// One chord of the plan.
struct PlannedVoicing {
    roadmap::DueChange change;  ///< in one time through the passage
    harmony::Palette palette;
    Grip grip;
    bool pinned = false;   ///< by the chart, or as it was played in a take
    bool goes_on = false;  ///< the chord was there already: it moves while it lasts
    Cost sound = 0;        ///< of the voicing itself: how it lies in the hand, how it sounds
    Cost reach = 0;        ///< of getting here from the voicing before (the first: from the last)
};

/// A whole passage, played over and over.
struct VoicingPlan {
    Fretboard fretboard = Fretboard::standard();
    chart::Passage passage;
    time::Bpm tempo{120};
    std::vector<PlannedVoicing> voicings;  ///< in order of time; none where the form has no chord
    std::vector<Move> moves;  ///< [i] leads to voicing i; the first comes from the last, a loop

    [[nodiscard]] Cost cost() const;
    /// The voicing that sounds at a position in the form; none before the first and in N.C.
    [[nodiscard]] const PlannedVoicing* at(time::Ticks in_form) const;
};

/// The sum of a plan, for one time through.
struct PlanTotals {
    int changes = 0;       ///< moves from voicing to voicing, the one back to the top included
    int guided = 0;        ///< of these: a finger stays or slides
    int travel = 0;        ///< frets that fingers travel
    double semitones = 0;  ///< a voice, a change: the mean
    int widest_jump = 0;   ///< frets that the hand shifts at once
    const PlannedVoicing* widest_at = nullptr;  ///< where it comes to
};
[[nodiscard]] PlanTotals totals_of(const VoicingPlan& plan);

/// The best plans of a passage, distinct in at least one voicing, the best first; `count` (1 and
/// more) of them, fewer where there are no more. Deterministic. Throws text::BadInput.
[[nodiscard]] std::vector<VoicingPlan> plan_voicings(const chart::Form& form,
                                                     chart::Passage passage, time::Bpm tempo,
                                                     const Fretboard& fretboard,
                                                     const VoicingWishes& wishes, int count = 1);

}  // namespace compline::guitar
