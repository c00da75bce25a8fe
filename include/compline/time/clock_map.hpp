#pragma once

#include <compline/time/clock_steps.hpp>
#include <compline/time/sliding_minimum.hpp>
#include <compline/time/units.hpp>

#include <cstddef>
#include <cstdint>
#include <deque>
#include <optional>
#include <type_traits>
#include <vector>

namespace compline::time {

/// What an audio callback says of itself: which frames it makes, and when it was called.
struct Stamp {
    Frames first;    ///< first frame of its block; the stream's own count, from 0
    int frames = 0;  ///< how many: the period
    Instant called;  ///< the steady clock, read first thing
    std::uint32_t device_frame =
        0;  ///< the server's own number of `first`, with `has_device_frame`
    bool has_device_frame = false;
    bool interrupted = false;  ///< the API says that sound was lost before this block (an xrun)
};
static_assert(std::is_trivially_copyable_v<Stamp>);

/// Audio frames <-> the steady clock, from the stamps of one stream; a stream opened anew gets a
/// new map. No clock is read here. Stream time 0 is the stream's first frame.
///
/// A callback may be woken late, never early. So the smallest offset (time of the call minus time
/// of its frame) of the last second is the truth, give or take the best wake-up of a second, and
/// late ones do not move it. A second is short enough for clocks that drift apart by 100 ppm: the
/// answer lags by 0.1 ms at most. When sound is lost the offset jumps up for good; that is seen
/// when all calls of the last 50 ms (and at least four) lie more than 0.3 ms above the smallest of
/// the second, which then starts over. An offset that jumps down is taken at once. Of the filters
/// that were compared under load and xruns this one erred least: delay-locked loops, regressions
/// and long medians go wrong by 5 to 15 ms after an xrun.
///
/// Its limit: 50 ms (four blocks) in which every callback is late look like lost sound.
///
/// Threads: one. Real-time: no, it allocates; the callback hands its stamps over by a queue.
/// add() is amortised O(1), the memory bounded: the stamps of little more than the last second.
class ClockMap {
  public:
    explicit ClockMap(SampleRate rate);

    /// In order of `first` and of `called`, frames at least 1 (asserted). The period may change;
    /// stamps may be missing between (lost by a full queue), and then nothing else is lost.
    void add(const Stamp& stamp);

    /// Whether stream_time_at() can be trusted: 200 ms of sound and four stamps have come. Stays
    /// true; after a step see uncertain().
    [[nodiscard]] bool settled() const { return settled_; }

    /// Where the stream was. It is asked soon after the moment: the answer holds for the last
    /// second. Needs a stamp (asserted).
    [[nodiscard]] Seconds stream_time_at(Instant moment) const;

    /// The same for what is handed over at the start of an audio cycle, whenever in the cycle
    /// before it happened (RtMidi over JACK): the latest callback's frame plus what passed since,
    /// and half a period; unfiltered, as a late cycle makes both late. The error is spread evenly
    /// over one period, P/sqrt(12), at most P/2 from its mean, a constant to be calibrated away.
    /// Needs a stamp (asserted); before the oldest stamp kept, that one is used.
    [[nodiscard]] Seconds stream_time_in_cycle(Instant moment) const;

    /// Where the stream was at a frame as the device counts them: exact, by the stamp whose block
    /// holds it, else the nearest earlier one (else, for frames over a second old, the oldest one
    /// kept). Device frames wrap at 2^32 (after 25 h at 48 kHz); those meant lie within 2^31 of
    /// the last stamp's. None before any stamp with a device frame.
    [[nodiscard]] std::optional<Seconds> stream_time_of(std::uint32_t device_frame) const;

    /// Whether a stamp of this frame's cycle or of a later one has come: the answer of
    /// stream_time_of() will not change within the next second.
    [[nodiscard]] bool knows(std::uint32_t device_frame) const;

    /// Stream times, in order, at which sound was lost or the clock stepped: `interrupted` stamps,
    /// and jumps up or down by over 0.3 ms that the map found (a jump up 50 ms or four blocks after
    /// it; none before the map settled). Steps less than 50 ms or four blocks apart are one.
    [[nodiscard]] const std::vector<Seconds>& steps() const { return steps_.times(); }

    /// Within a second of a step, before or after. Ask a second later, or again at the end.
    [[nodiscard]] bool uncertain(Seconds stream_time) const;

    /// Xruns: the steps at which sound was lost, that is all but jumps down.
    [[nodiscard]] int interruptions() const { return steps_.losses(); }

    /// For a watchdog: when the last callback was called; none before the first.
    [[nodiscard]] std::optional<Instant> last_called() const;

    /// The frame after the last one fed to the device: the end of the last block; 0 before any.
    [[nodiscard]] Frames now_frame() const;

    /// How many stamps are kept, for who watches the memory.
    [[nodiscard]] std::size_t kept() const { return kept_.size(); }

  private:
    struct Kept {
        Stamp stamp;
        std::int64_t received;  // frames of all stamps before it
        std::int64_t offset;    // call minus frame, in nanoseconds
    };

    [[nodiscard]] std::int64_t frames_in(Seconds time) const;
    [[nodiscard]] std::int64_t offset_of(const Stamp& stamp) const;
    [[nodiscard]] Seconds start_of(const Stamp& stamp) const;
    [[nodiscard]] Seconds time_to_find(const Stamp& stamp) const;
    void keep(const Kept& kept);
    void note_flag(const Stamp& stamp);
    void follow_down(const Kept& kept);
    void follow_up();
    void settle();
    [[nodiscard]] const Stamp& first_above(std::int64_t offset) const;
    [[nodiscard]] const Stamp* stamp_for(std::uint32_t device_frame) const;
    [[nodiscard]] const Stamp* latest_with_device_frame() const;
    [[nodiscard]] static bool has_device_frame(const Kept& kept);

    SampleRate rate_;
    std::deque<Kept> kept_;
    // Windows are measured in sound received: neither a clock that leaps nor missing stamps empty
    // them, so what comes after is always compared with what was before.
    std::int64_t received_ = 0;
    std::int64_t received_at_start_ = 0;  // when the window of a second started (over)
    SlidingMinimum last_second_;
    SlidingMinimum last_moment_;
    ClockSteps steps_;
    bool settled_ = false;
};

}  // namespace compline::time
