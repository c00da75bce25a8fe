#pragma once

#include <compline/harmony/pitch.hpp>
#include <compline/listen/listener.hpp>
#include <compline/listen/note.hpp>
#include <compline/listen/sound_onsets.hpp>
#include <compline/time/units.hpp>

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace compline::practice {

// The second way: by the guitar's own sound. The guitar's ordinary output goes into the interface
// beside the MIDI pickup; single clean notes are played on each string, low and high (best the
// open string and the twelfth fret), soft and hard. D is then the note-on minus the beginning of
// the same note in sound (see round_trip.hpp for R and D):
//
//     D(string, note) = constant + cycles / frequency(note) + difference(string)
//
// Cycles are known from low and high notes of one string, and from low and high strings. Without R,
// what is judged stays off by what the system does not say of its output, whatever is found here.

/// A note of the pickup and the sound it belongs to.
struct HeardTwice {
    time::Seconds sound;    ///< its beginning in the input
    time::Seconds note_on;  ///< on the same clock
    harmony::MidiNote note{60};
    int velocity = 80;
    std::optional<int> string;

    [[nodiscard]] time::Seconds delay() const { return note_on - sound; }
};

/// Notes and sounds brought together, each used once.
struct Pairs {
    std::vector<HeardTwice> pairs;  ///< in order of sound
    int sounds_alone = 0;           ///< without a note: the pickup missed it, or it was noise
    int notes_alone = 0;            ///< without a sound: a ghost, or too soft
};

/// A note-on comes from 20 ms before to 80 ms behind its sound; each note goes to the nearest one.
/// Of several notes at one sound the first counts that has half the velocity of the loudest: the
/// rest are ghosts, or the same pick sent twice. Notes that were slid into are left out.
/// onsets: frames of the stream at `rate`, in order; notes: in order of `on`, in seconds of the
/// same stream, with nothing taken off (listen::hear with a Delay of 0 and 0).
[[nodiscard]] Pairs pair_up(std::span<const listen::SoundOnset> onsets, time::SampleRate rate,
                            std::span<const listen::Note> notes);

/// Why a delay is not known.
enum class SoundFault {
    no_sound,        ///< nothing was heard in the input
    no_notes,        ///< the MIDI pickup sent nothing
    not_together,    ///< both came, but the one does not follow the other
    too_few_notes,   ///< on the strings that are named
    too_much_alike,  ///< all notes are of about one pitch: cycles and constant cannot be told apart
};

/// What one string adds.
struct StringDelay {
    int string = 1;
    int notes = 0;                ///< that were used
    time::Seconds difference{0};  ///< to be taken off besides; 0 where it is not sure
    time::Seconds measured{0};    ///< as it came out, sure or not
    time::Seconds error{0};       ///< its standard error
};

struct PickupDelay {
    std::optional<SoundFault> fault;
    listen::Delay common;              ///< constant, and cycles from 0 to 6
    time::Seconds constant_error{0};   ///< standard error
    double cycles_error = 0;           ///< standard error
    std::vector<StringDelay> strings;  ///< from string 1 on; empty: one channel for all
    time::Seconds sd{0};               ///< of a single note around the fit
    /// Two standard errors of what is taken off, at the least sure of the notes that were played,
    /// and what a string differs by too little to be sure.
    time::Seconds sure_within{0};
    int used = 0;
    int left_out = 0;      ///< pairs too far from the fit
    int sounds_alone = 0;  ///< as in Pairs
    int notes_alone = 0;
    std::vector<int> lacking;  ///< strings with too few notes; empty for one channel

    [[nodiscard]] bool is_known() const { return !fault; }
    /// What is to be taken off a note. A string that was not measured has no difference.
    [[nodiscard]] time::Seconds of(harmony::MidiNote note, std::optional<int> string) const;
};

/// Notes that each string needs at least; and so many that, where a pickup scatters by 1 ms, nearly
/// nine guitars in ten have every note of the neck within half a millisecond (16: eight in ten, 40:
/// all but one in forty; counted over simulated ones, one string 8 ms off).
inline constexpr int fewest_notes = 6;
inline constexpr int enough_notes = 24;

/// Least squares without outliers. First each string has a constant of its own, all have one number
/// of cycles: fitted again and again with less weight for what lies far off (Huber), then without
/// what lies beyond 4 standard deviations, these by the median deviation. Then a string keeps a
/// constant of its own only where it differs from the others by more than 2.5 standard errors; one
/// that does not is steadied by the rest. A string of one pitch alone has its cycles by the others.
/// strings: those that are to be measured, fewest_notes each. Where no pair has a string, all are
/// one fit, of fewest_notes for each of `strings` together.
[[nodiscard]] PickupDelay fit_pickup_delay(const Pairs& pairs, std::span<const int> strings);

/// For the player, in lines of 80 columns at most: what was found, how sure it is; or why nothing
/// is known, and what to do.
[[nodiscard]] std::string in_words(const PickupDelay& found);

}  // namespace compline::practice
