#pragma once

#include <compline/simulate/chance.hpp>
#include <compline/simulate/rough_pickup.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::simulate {

// The parts of the rough pickup: played notes, what is sent of them, and the faults, each a
// function that changes what is sent. All times in here are seconds of the take.

/// A note as it was played.
struct PlayedNote {
    int string = 1;
    int key = 60;
    int velocity = 80;
    time::Seconds on;
    time::Seconds off;
    std::size_t strum = 0;              ///< number of its strum
    std::optional<std::size_t> before;  ///< the note before it on its string
    bool dropped = false;
    bool slid = false;       ///< its finger slid into it
    bool slid_from = false;  ///< its finger slides on to the next note of the string
};

/// A bend of a sent note, in MIDI's units.
struct Bend {
    time::Seconds at;
    int value = 0;
};

/// A note-on as it is sent, with all that follows until its note-off.
struct SentNote {
    std::size_t played = 0;  ///< the note that it is; of a ghost, one of its strum
    int string = 1;
    int key = 60;
    int velocity = 80;
    time::Seconds on;
    time::Seconds off;
    bool ended = true;  ///< its note-off is sent
    std::vector<Bend> bends;

    [[nodiscard]] int bend() const { return bends.empty() ? 0 : bends.back().value; }
};

/// What the faults work on.
struct Sending {
    const Roughness& rough;
    std::uint64_t seed;
    std::vector<PlayedNote> played;  ///< in order of onset
    std::vector<SentNote> sent;      ///< in no order
    /// For each played note, which of `sent` is it; of a bend, the note that was bent. None:
    /// dropped. The first parts of a flicker and of a double trigger come besides.
    std::vector<std::optional<std::size_t>> sent_as;
    std::vector<time::Seconds> scatter;  ///< of the delay, for each played note
    RoughTake take;

    /// Numbers of its own for each fault.
    [[nodiscard]] Chance chance_for(int fault) const {
        return Chance(Chance(seed + 0x100000001B3ULL * static_cast<std::uint64_t>(fault)).next());
    }
    [[nodiscard]] Chance chance_for(Fault fault) const {
        return chance_for(static_cast<int>(fault) + 1);
    }
    [[nodiscard]] time::Seconds delay_of(int string, int key) const {
        const auto& [constant, cycles, by_string] = rough.delay;
        const auto late = constant + time::Seconds(cycles / harmony::MidiNote(key).hz());
        const bool is_named = string <= static_cast<int>(by_string.size());
        return is_named ? late + by_string[static_cast<std::size_t>(string) - 1] : late;
    }
    void done(Fault fault, const SentNote& what);
};

[[nodiscard]] inline time::Seconds between_ms(Chance& chance, double low_ms, double high_ms) {
    return time::from_milliseconds(low_ms + (high_ms - low_ms) * chance.uniform());
}

[[nodiscard]] inline bool slides_bend(const Roughness& rough) {
    return rough.slides_as == SlidesAs::bends && !rough.one_channel;
}

/// The channel that a string speaks on.
[[nodiscard]] int channel_of(const Roughness& rough, int string);

/// Throws text::BadInput.
void check(const Roughness& roughness);
[[nodiscard]] std::vector<PlayedNote> read_clean(std::span<const midi::TimedMessage> clean,
                                                 const guitar::Fretboard& fretboard);

// In the order in which they must be done.

void drop_soft_notes(Sending& sending);
void scatter_velocities(Sending& sending);
/// Marks the notes that are slid into; they sound as loud as the note they come from.
void choose_slides(Sending& sending);
/// Every note, late as it is found.
void send_all(Sending& sending);
/// What is sent of the way from one fret to the next.
void send_slides(Sending& sending);
void flicker(Sending& sending);
void trigger_twice(Sending& sending);
void sway(Sending& sending);
void ring_on_lift_off(Sending& sending);
void end_late(Sending& sending);
void lose_ends(Sending& sending);
void add_ghosts(Sending& sending);

/// In order of time, with bends back at the centre before each note-on, on the pickup's channels.
[[nodiscard]] std::vector<midi::TimedMessage> messages_of(const Sending& sending);
/// In the order they came.
void transport(std::vector<midi::TimedMessage>& messages, Transport how);

}  // namespace compline::simulate
