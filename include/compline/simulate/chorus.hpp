#pragma once

#include <compline/chart/form.hpp>
#include <compline/simulate/guitarist.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::simulate {

// A chorus as a comper plays it, with all the liberties that are no mistakes and, among them, known
// mistakes: what a judge must tell apart.

/// What is done on purpose on one chord change, or around it.
enum class Deed {
    // Mistakes.
    late,
    wrong_third,      ///< the minor third for the major one, or the other way round
    stuck_finger,     ///< a finger of the old chord stays on its string
    missing_seventh,  ///< or sixth
    missed,           ///< the old chord is struck on
    // Liberties.
    push,           ///< comes between the straight and the swung off-beat before
    later_entry,    ///< the old chord is let go, the new one comes in on a later beat or off-beat
    laid_out,       ///< not played, and nothing of the old chord rings
    lead_in,        ///< a lone bass note before it
    approach,       ///< the grip a fret away before it
    passing_chord,  ///< a foreign grip on a weak place, resolving by step
    fill,           ///< single notes or double-stops
    dead_strum,
};
inline constexpr int deed_count = 13;
[[nodiscard]] std::string_view name_of(Deed deed);
[[nodiscard]] constexpr bool is_mistake(Deed deed) { return deed <= Deed::missed; }

/// A chord change as it was played, and so as it must be judged.
struct PlayedChange {
    int pass = 1;
    int bar = 1;
    double beat = 1;
    time::Ticks at;
    harmony::Chord chord;
    std::optional<Deed> deed;  ///< none: simply played
    std::string words;         ///< what was done, for a reader
    /// First onset of the strum that lands it; none where it is missed or laid out.
    std::optional<time::Seconds> landing;
    std::optional<harmony::MidiNote> foreign;  ///< the wrong third, or what a stuck finger gives
    std::optional<harmony::Degree> left_out;
};

struct Chorus {
    time::Groove groove;
    std::vector<ScriptedStrum> script;
    std::vector<PlayedChange> changes;  ///< every chord change of the form, in order
};

struct ChorusRequest {
    std::uint64_t seed = 1;
    bool deeds = true;  ///< false: simply played
    /// Standard deviation of the player's time. Scaled down where the tolerance is small, so that
    /// what is meant to be in time is in time.
    time::Seconds scatter{0.009};
};

/// Plays a form once, with shells and what may be added to them, in comping rhythms drawn by
/// chance, every grip ringing as long as it may. A deed has a simply played change on either side.
/// A deed is planted only where it is plain: where another reading of what is heard would be as
/// good, as on two chords that share their voicings, it is not. Deterministic by seed.
[[nodiscard]] Chorus play_chorus(const chart::Form& form, const time::Groove& groove,
                                 const ChorusRequest& request);

}  // namespace compline::simulate
