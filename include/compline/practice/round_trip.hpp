#pragma once

#include <compline/time/units.hpp>

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace compline::practice {

// The first of the three ways to a delay: by wire. What has to be known:
//
//   R, the round trip of the interface: a click written into output frame n is heard in input frame
//      n + R, both counted alike in one callback that has output and input.
//   D, a note's note-on minus the input frame in which the same note begins as sound. It differs by
//      string: a constant, cycles of the note's wave, and a difference of that string. It may be
//      negative: the input takes time too.
//
// A note that is played exactly with what the player hears has its note-on at n + R + D. So R + D
// is taken off, and R replaces the output latency that the system reports; nothing is taken off
// twice. R is measured here, D by pickup_delay.hpp from the guitar's own sound, and the differences
// between strings alone by click_delay.hpp.
//
// Before a cable is led from an output back into an input: headphones off, amplifier down, the
// input's gain low. A loop that is heard through the interface can feed back and be loud at once;
// that hurts ears and loudspeakers. So the clicks begin soft, and are made louder by the player.

struct ClickTrainSettings {
    int clicks = 16;                 ///< 3 to 1,000
    double level_db = -30;           ///< the click's largest sample, in dB of full scale, -60 to -3
    time::Seconds first{0.5};        ///< where the first one is: what begins a stream is over then
    time::Seconds least_apart{0.6};  ///< from one to the next; longer than listened_for
    time::Seconds most_apart{0.8};
    std::uint64_t seed = 1;
};

/// Clicks for a round trip: unevenly apart, so that neither a band nor an echo can be taken for
/// them. A click is a chirp of 4 ms, soft at both ends, from 1 to 8 kHz (less at a low rate): it
/// sounds like a tick, hum does not reach it, and it fits itself at one frame alone.
///
/// Threads: any, it never changes.
class ClickTrain {
  public:
    /// Echoes and round trips are looked for up to here.
    static constexpr time::Seconds listened_for{0.5};

    /// Throws std::invalid_argument for settings out of range.
    explicit ClickTrain(time::SampleRate rate, const ClickTrainSettings& settings = {});

    [[nodiscard]] time::SampleRate rate() const { return rate_; }
    /// The first frame of each click, counted from the train's own beginning.
    [[nodiscard]] const std::vector<time::Frames>& clicks() const { return clicks_; }
    [[nodiscard]] const std::vector<float>& waveform() const { return waveform_; }
    /// How long to play and to record: until the last click must have come back.
    [[nodiscard]] time::Frames length() const { return length_; }

    /// Writes the train's frames from `first` on over a block; silence before and behind it.
    /// Threads: any. Real-time: yes.
    void write(time::Frames first, std::span<float> block) const noexcept;

    /// All of it.
    [[nodiscard]] std::vector<float> whole() const;

  private:
    time::SampleRate rate_;
    std::vector<float> waveform_;
    std::vector<time::Frames> clicks_;
    time::Frames length_;
};

/// Why a round trip is not known.
enum class WireFault {
    nothing_heard,  ///< no click came back
    too_soft,       ///< they are not far enough above the noise, or the input is hardly used
    clipped,        ///< the input is overloaded
    too_late,       ///< the clicks come back, but later than was listened for
    unsteady,       ///< they come back now sooner, now later: sound was lost
    echoes          ///< each click comes back more than once
};

/// A click that came back a second time.
struct SecondArrival {
    double after_frames = 0;  ///< behind (or, negative, before) the loudest
    double db = 0;            ///< against it
};

/// What a train of clicks brought. With a fault the figures are what was found all the same, and no
/// delay to use.
struct RoundTrip {
    std::optional<WireFault> fault;
    time::SampleRate rate{48000};
    double frames = 0;           ///< R: median, to a fraction of a frame
    double farthest_frames = 0;  ///< the click farthest from the median, without its sign
    double sd_frames = 0;        ///< standard deviation
    int heard = 0;               ///< clicks that came back ...
    int clicks = 0;              ///< ... of so many
    double level_db = -200;      ///< median of their largest samples, dB of full scale
    double above_noise_db = 0;   ///< of a click that is fitted, over what fits where none is
    std::optional<SecondArrival> second;

    [[nodiscard]] bool is_known() const { return !fault; }
    [[nodiscard]] time::Seconds delay() const { return time::Seconds(frames / rate.hz()); }
};

/// More than this from the median: interrupted. In frames.
inline constexpr double steady_within = 2;
/// A second arrival this near to the first in level is an echo. In dB.
inline constexpr double echo_within_db = 12;

/// Finds the clicks of a train in what was recorded while it was played: mono, its frame 0 being
/// the train's, as long as the train or shorter. Three quarters of the clicks must come back.
///
/// By correlation with the click's waveform (a matched filter); the top of each peak by a parabola.
[[nodiscard]] RoundTrip measure_round_trip(const ClickTrain& train,
                                           std::span<const float> recorded);

/// For the player, in lines of 80 columns at most: what was found, how sure it is; or why nothing
/// is known, and what to do.
[[nodiscard]] std::string in_words(const RoundTrip& found);

/// What to do before the clicks begin, in lines of 80 columns at most.
[[nodiscard]] std::string before_the_wire();

}  // namespace compline::practice
