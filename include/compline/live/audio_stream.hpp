#pragma once

#include <compline/live/devices.hpp>
#include <compline/live/playback.hpp>

#include <memory>
#include <optional>
#include <string>

namespace compline::live {

/// A stream of sound to an output. Opened first, since only then its rate is known, which the
/// sounds are made for; started with what is to be played.
///
/// Threads: main only.
class AudioStream {
  public:
    struct Request {
        std::optional<time::SampleRate> rate;  ///< none: the device's own
        std::optional<int> period;             ///< frames a callback; none: 256
    };
    static constexpr int usual_period = 256;

    /// Throws ChoiceError for a rate that it does not have, with those it has; DeviceError when it
    /// has gone or cannot be opened. The period is a wish: a JACK server has its own for all, see
    /// period().
    AudioStream(const AudioOutput& output, const Request& request);
    /// Stops it if need be. A stream whose server has died is left to itself after half a second.
    ~AudioStream();
    AudioStream(const AudioStream&) = delete;
    AudioStream& operator=(const AudioStream&) = delete;

    [[nodiscard]] time::SampleRate rate() const;
    [[nodiscard]] int period() const;
    /// From the callback to the output, as the system tells; 0 where it cannot.
    [[nodiscard]] time::Seconds latency() const;

    /// `playback` must outlive the stream. Throws DeviceError.
    void start(Playback& playback);

    /// What the library said of the stream since it was opened, for whoever has to say why it died;
    /// often empty.
    [[nodiscard]] std::string complaint() const;

  private:
    struct Stream;
    std::shared_ptr<Stream> stream_;
};

}  // namespace compline::live
