#pragma once

#include <compline/listen/midi_source.hpp>
#include <compline/listen/unheard.hpp>
#include <compline/midi/message.hpp>
#include <compline/time/clock_map.hpp>

#include <cstddef>
#include <deque>
#include <vector>

namespace compline::practice {

/// What a live take is made of, as it becomes known.
struct Played {
    std::vector<midi::TimedMessage> messages;
    std::vector<time::Seconds> interruptions;    ///< when sound was lost or the clock stepped
    std::vector<listen::CableEvent> cable = {};  ///< of the guitar; out or in again
    /// From a pedal's own port. No music, and timed by itself: it never holds the guitar's up.
    std::vector<midi::TimedMessage> pedal = {};

    /// What came since, put behind.
    void append(const Played& news);
};

/// The time of a practice session: makes times in the tune (0 = bar 1 beat 1 of the first time
/// through, as the player hears it) of audio callbacks' stamps and of MIDI as it arrives. Reads no
/// clock and opens no device; what a whole evening brings can be replayed in a moment.
///
/// Threads: one. Real-time: no.
class Session {
  public:
    /// rate: of the stream; latency: from the audio callback to the ear, added here and nowhere
    /// else; where it was measured, the round trip in its place (see KnownRoundTrip).
    Session(time::SampleRate rate, time::Seconds latency);

    /// A run begins (or starts over) with bar 1 beat 1 at this frame of the stream. What was played
    /// before is forgotten, except what an instrument says of itself once and for all when it is
    /// switched on (the bend range).
    void start(time::Frames zero);

    void add(const time::Stamp& stamp) { clock_.add(stamp); }
    void add(const listen::Arrival& arrival) { waiting_.push_back(arrival); }
    /// The same from a pedal's own port.
    void add_pedal(const listen::Arrival& arrival) { pedal_waiting_.push_back(arrival); }
    /// The guitar's cable is seen to be out, or in again.
    void add_cable(bool out, time::Instant moment) { cable_waiting_.push_back({moment, out}); }

    /// Times what arrived, as far as it can be; gives what is new. Times never go back: a message
    /// that a step of the clock would put before the one before it is put beside it.
    Played advance();

    /// All that was heard in this run.
    [[nodiscard]] const Played& played() const { return played_; }

    /// What the player hears now. Before the first stamp: minus the count-in, about. While the
    /// stream stands still, so does this.
    [[nodiscard]] time::Seconds now(time::Instant moment) const;

    /// A time in the tune as one of the stream, which goes on from take to take.
    [[nodiscard]] time::Seconds in_the_stream(time::Seconds in_tune) const {
        return in_tune + zero_ + latency_;
    }

    [[nodiscard]] const time::ClockMap& clock() const { return clock_; }

  private:
    [[nodiscard]] std::optional<time::Seconds> stream_time_of(const listen::Arrival& arrival) const;
    [[nodiscard]] time::Seconds in_the_tune(time::Seconds stream_time) const;
    [[nodiscard]] time::Seconds as_far_as_made(time::Seconds stream_time) const;
    [[nodiscard]] std::vector<midi::TimedMessage> timed(
        std::deque<listen::Arrival>& waiting, const std::vector<midi::TimedMessage>& before) const;
    [[nodiscard]] std::vector<listen::CableEvent> cable_events();

    struct CableSeen {
        time::Instant moment;
        bool out;
    };

    time::SampleRate rate_;
    time::Seconds latency_;
    time::Seconds zero_;  // stream time
    time::ClockMap clock_;
    std::deque<listen::Arrival> waiting_;
    std::deque<listen::Arrival> pedal_waiting_;
    std::vector<CableSeen> cable_waiting_;
    Played played_;
    std::size_t steps_seen_ = 0;
};

}  // namespace compline::practice
