#pragma once

#include <compline/guitar/voicing_plan.hpp>
#include <compline/time/units.hpp>

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace compline::simulate {

// How the simulated guitarist plays: what a teacher would say of a pupil after ten minutes.

/// Where in the bar it is played.
enum class Comping {
    four_to_the_bar,
    charleston,    ///< 1 and the off-beat after 2
    pushes,        ///< every chord on the off-beat before it, and on the off-beat after 2
    two_and_four,  ///< in three 2 and 3
    off_beats,     ///< the off-beats after 1 and 3
    long_chords,   ///< one strum a chord
    sparse,        ///< one strum a chord, a third of them laid out
    fills,         ///< a strum a bar, single notes and double-stops between
    chord_melody,  ///< a strum a chord, single notes above it while it rings
    bossa,         ///< thumb on 1 and 3, the upper strings on 1, the off-beat after 2, and 4
};
inline constexpr int comping_count = 10;
[[nodiscard]] std::string_view name_of(Comping comping);

/// What is done on one chord change, or around it, beside playing it. Each is a function in
/// mistakes.cpp or liberties.cpp that says where it is plain to hear, with a test that it sounds.
enum class Deed {
    // Mistakes.
    late,
    early,
    wrong_third,      ///< the minor third for the major one, or the other way round
    wrong_fret,       ///< one finger a fret off
    stuck_finger,     ///< a finger of the old chord stays on its string
    missing_seventh,  ///< or the sixth of a minor sixth
    missed,           ///< the old chord is struck on
    lost,             ///< what comes somewhere else in the form is played, for some changes
    // Between the two: the grip takes time, and comes in a beat late, in time.
    wait,
    // Liberties.
    push,         ///< on the off-beat before
    later_entry,  ///< the old chord is let go, the new one comes in on a later beat or off-beat
    laid_out,     ///< not played, and nothing of the old chord rings
    broken,       ///< string by string
    up_stroke,    ///< a quick stroke up before the stroke on the beat
    lead_in,      ///< a lone bass note before it
    approach,     ///< the grip a fret away before it
    passing,      ///< a foreign grip on a weak place, resolving by step
    dead_strum,   ///< between, with damped strings
};
inline constexpr int deed_count = 18;
[[nodiscard]] std::string_view name_of(Deed deed);
[[nodiscard]] constexpr bool is_mistake(Deed deed) { return deed <= Deed::lost; }

/// Where a habit strikes.
struct SlowHand {
    bool on_wide_moves = false;  ///< over four frets
    bool after_fills = false;
    bool into_sections = false;  ///< on the first change of one
};

/// How the player waits for a grip: never, on wide moves, or at one place each time through.
enum class Waits { never, on_wide_moves, at_one_place };

/// One fault that comes again and again, and where.
struct Planted {
    enum class Strikes {
        nowhere,
        at_one_place,     ///< a bar and beat of the form, each time through
        on_a_transition,  ///< from one chord to another, at more than one place
        on_wide_moves,
        after_fills,
        into_sections,
        on_a_quality,  ///< chords of one quality, by the symbol, after more than one chord
        anywhere,
    };
    Strikes strikes = Strikes::nowhere;
    Deed deed = Deed::late;
    double rate = 1;  ///< of the changes where it is plain to hear
};

struct Habits {
    Comping comping = Comping::charleston;
    /// Length of a strum in beats, of a player who cuts them short; 0: they ring until the next.
    double staccato = 0;
    time::Seconds overlap{0.02};  ///< how long the old grip rings into the new one, to 80 ms
    time::Seconds place{0};       ///< behind the beat, always
    /// Standard deviation of the player's time, cut where it would no longer be in time.
    time::Seconds scatter{0.012};
    std::array<double, deed_count> rates{};  ///< of each deed, a change; 0 to 1
    std::vector<Deed> once;  ///< each to be done once, somewhere: before the rates are asked
    SlowHand slow;
    Planted planted;
    std::optional<int> slips_on;  ///< wrong frets on this string alone
    time::Seconds off_beats{0};   ///< behind where the feel has them, of strums that land in time
    Waits waits = Waits::never;
    double wide_moves = 0.1;  ///< how often the hand goes somewhere else on the neck
    /// Grips to play, of the whole form; none: hand_voicings(). It must outlive the call.
    const guitar::VoicingPlan* voicings = nullptr;

    [[nodiscard]] double& rate(Deed deed) { return rates[static_cast<std::size_t>(deed)]; }
    [[nodiscard]] double rate(Deed deed) const { return rates[static_cast<std::size_t>(deed)]; }
};

}  // namespace compline::simulate
