#pragma once

#include "channel.hpp"
#include "lost_note_offs.hpp"

#include <compline/listen/listener.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace compline::listen {

/// The string of a channel, on a guitar of so many; 0: none.
[[nodiscard]] int string_of(const Strings& strings, int channel, int count);

/// Messages -> notes as a MIDI pickup sends them, before anything is cleaned.
///
/// A string plays one note at a time (mono mode): a new one ends the one before, a hammer-on's end
/// gives the lower note back. On one channel for all (poly mode) every pitch is a note of its own.
class NoteReader {
  public:
    NoteReader(const PickupSettings& settings, const std::optional<Strings>& strings);

    /// In order of time.
    void take(const midi::TimedMessage& timed);

    /// All notes, in order of onset, then of string; what still sounds lasts until `end`.
    [[nodiscard]] std::vector<Note> finish(time::Seconds end);

    /// Of Cleaned: unended, impossible.
    [[nodiscard]] const Cleaned& cleaned() const { return cleaned_; }

  private:
    /// A key that is down.
    struct KeyDown {
        int number = 0;
        int bent = 0;          ///< semitones by which the bend has moved its note
        std::size_t note = 0;  ///< the note that it sounds, or sounded last
        time::Seconds struck;
        bool sounds = true;  ///< false: another key of the string has taken over
        /// The note of the same key before it, which has not been let go yet.
        std::optional<std::size_t> before;
    };
    struct Channel {
        int number = 1;
        std::vector<KeyDown> keys;  ///< in the order they were struck
        BendRange range;
        BendPath path;
    };

    void start(Channel& channel, const midi::TimedMessage& timed);
    void stop(Channel& channel, int number, time::Seconds at);
    void stop_all(Channel& channel, time::Seconds at);
    void take_over(Channel& channel, time::Seconds at);
    void give_back(Channel& channel, const Note& left, time::Seconds at);
    void control(Channel& channel, int controller, int value, time::Seconds at);
    void control_all(int number, const midi::Message& message, time::Seconds at);
    void bend(Channel& channel, double semitones, time::Seconds at);
    void follow_slide(Channel& channel, time::Seconds at);
    void slide(Channel& channel, KeyDown& key, const BendPath::Arrival& arrival);
    [[nodiscard]] std::optional<Note> sounding(const Channel& channel, const KeyDown& key,
                                               time::Seconds at);
    [[nodiscard]] int string_of(const Channel& channel) const;
    std::size_t report(const Note& note);
    void sound_until(const KeyDown& key, time::Seconds at);

    const PickupSettings& settings_;
    std::optional<Strings> strings_;
    std::vector<Channel> channels_;
    std::vector<ReportedNote> reported_;
    Cleaned cleaned_;
};

}  // namespace compline::listen
