#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/listen/listener.hpp>
#include <compline/listen/note.hpp>
#include <compline/midi/message.hpp>

#include <array>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

namespace compline::simulate {

// What a real MIDI pickup makes of what was played. A clean take goes in: exact note-ons and
// note-offs, a channel a string. Out comes what a pickup, its strings and its cable would have
// sent, and the truth beside it: what a listener who mends all that can be mended would say.

/// How the messages travel.
enum class Transport {
    exact,
    usb,  ///< handed over in frames of 1 ms: every time is rounded up to the next one
    din,  ///< 31,250 baud, 0.32 ms a byte, one after the other, with running status
};

/// How a pickup sends a finger that slides to another fret.
enum class SlidesAs {
    bends,  ///< the note bends until it is the next one; no new note
    notes,  ///< each fret passed is a note of its own
};

/// What is wrong with a pickup and how much. All off by default. A share is 0 (never) to 1
/// (wherever it can be): of the notes, or of those of them that it can befall.
struct Roughness {
    /// How long a note takes to be found: a constant, cycles of what is sent (a flicker an octave
    /// up is found in half the time), and what its string takes besides. Note-offs are as late.
    listen::Delay delay;
    /// Standard deviation of it, at most 20 ms; cut at three times that.
    time::Seconds scatter{0};
    /// Standard deviation of velocities, 0 to 40.
    double velocity_sd = 0;

    /// An unplayed string speaks: 15 to 44 ms, softer than 0.35 of its strum's median velocity,
    /// within 30 ms of the strum. Share of the notes.
    double ghosts = 0;
    /// A note is sent again after 15 to 50 ms, after a note-off or over the first.
    double double_triggers = 0;
    /// A note begins an octave or a twelfth off, mostly above, for 10 to 50 ms.
    double flickers = 0;
    /// As a fretted note ends, the open string rings for 40 to 200 ms, under half as loud.
    double lift_offs = 0;

    /// Share of the shifts of a grip that are sent as slides: of the strums in which a finger stays
    /// on its string and goes up to five frets away. All such fingers of a strum slide together.
    double slides = 0;
    /// On one channel for all, where a bend would bend every string, always notes.
    SlidesAs slides_as = SlidesAs::bends;
    double bend_range = 2;          ///< semitones either way, 1 to 24; no slide goes beyond
    bool tells_bend_range = false;  ///< by RPN 0 at the start; else it is only implied
    /// Share of the notes over 600 ms that sway by 10 to 35 cents, 5 to 6 times a second.
    double vibrato = 0;

    /// Share of the softest fifth of the notes that never come.
    double dropped = 0;
    double lost_offs = 0;  ///< the note-off never comes
    /// Share of the notes bound to another one on their string whose note-off comes 5 to 60 ms
    /// after that one began.
    double late_offs = 0;

    Transport transport = Transport::exact;
    listen::Strings strings;   ///< which channel is which string
    bool one_channel = false;  ///< all strings on `strings.first_channel` (mode poly)
    guitar::Fretboard fretboard = guitar::Fretboard::standard();
};

enum class Fault {
    ghost,
    double_trigger,
    flicker,
    lift_off,
    slide,
    fret_passed,
    vibrato,
    dropped,
    lost_off,
    late_off,
};
inline constexpr int fault_count = 10;
[[nodiscard]] std::string_view name_of(Fault fault);

/// A fault that happened. Of a note nobody played: that note, its length and velocity as sent.
struct FaultDone {
    Fault fault = Fault::ghost;
    int string = 1;
    harmony::MidiNote note{60};
    time::Seconds at;  ///< on the scale of the truth: as sent, less the delay
    time::Seconds length;
    int velocity = 1;
};

/// A played note, as a perfect listener would say it.
struct TrueNote {
    listen::Note note;     ///< onset as played; of a slide, when half of its way was done
    bool dropped = false;  ///< never sent: nobody can hear it
};

struct RoughTake {
    std::vector<midi::TimedMessage> messages;  ///< in order of time
    std::vector<TrueNote> truth;               ///< every note played, in order of onset
    std::vector<FaultDone> faults;             ///< in order of time
    std::array<int, fault_count> counts{};

    [[nodiscard]] int count(Fault fault) const { return counts[static_cast<std::size_t>(fault)]; }
    /// The truth without what was dropped: all that can be heard.
    [[nodiscard]] std::vector<listen::Note> audible() const;
};

/// Deterministic by seed; a fault's places do not depend on which others are on, but where they
/// would meet on one note. Throws text::BadInput, saying what was found and what was
/// expected, for a rate out of range and for a take that is not clean: anything but note-ons and
/// note-offs, out of order, on a channel that is not a string's (1 = string 1), or a note that the
/// string does not have. A note that is never ended rings to the last message.
[[nodiscard]] RoughTake roughen(std::span<const midi::TimedMessage> clean,
                                const Roughness& roughness, std::uint64_t seed);

/// What a listener must be told of such a pickup: its delay, its channels, and its bend range where
/// that is only implied.
[[nodiscard]] listen::PickupSettings listening_to(const Roughness& roughness);

/// From a pickup that does nothing wrong to one that needs repair.
enum class Wear { none, low, moderate, high };
inline constexpr int wear_count = 4;
[[nodiscard]] std::string_view name_of(Wear wear);
/// Moderate: 1.5 cycles of delay scattered by 1 ms, 5 % ghosts, double triggers and lift-offs, 3 %
/// flickers, a fifth of the shifts as bends, USB. High: about three times that, soft notes dropped,
/// note-offs lost and late, vibrato, a DIN cable.
[[nodiscard]] Roughness roughness_of(Wear wear);

}  // namespace compline::simulate
