#pragma once

#include <compline/live/audio_task.hpp>
#include <compline/live/devices.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/time/units.hpp>

#include <memory>
#include <optional>
#include <string>

namespace compline::live {

/// An open stream of sound to an output, silent at first, and from an input where one is wanted.
/// Opened before anything is made for it, since only then its rate is known; started with what is
/// to be done, which a thread of its own then asks for a period at a time.
///
/// Threads: main only.
class AudioStream {
  public:
    struct Request {
        std::optional<time::SampleRate> rate;  ///< none: the device's own
        std::optional<int> period;             ///< frames a callback; none: 256
        std::optional<SoundInput> input;       ///< of the output's API; none: nothing is heard
    };
    static constexpr int usual_period = 256;

    AudioStream() = default;
    /// Once it is gone nothing calls the task any more, whatever became of the device.
    virtual ~AudioStream() = default;
    AudioStream(const AudioStream&) = delete;
    AudioStream& operator=(const AudioStream&) = delete;

    /// API and name of the output, as the player is told.
    [[nodiscard]] virtual std::string name() const = 0;
    [[nodiscard]] virtual time::SampleRate rate() const = 0;
    [[nodiscard]] virtual int period() const = 0;
    /// From the callback to the output and, where there is an input, from there to the callback
    /// too, as the system tells; 0 where it cannot.
    [[nodiscard]] virtual time::Seconds latency() const = 0;

    /// `task` must outlive the stream. Throws DeviceError; it may have been called by then.
    virtual void start(AudioTask& task) = 0;

    /// What the library said of the stream since it was opened, for whoever has to say why it died;
    /// often empty.
    [[nodiscard]] virtual std::string complaint() const = 0;
};

/// Opens an output, and an input beside it. Throws text::BadInput for a rate that the output does
/// not have, with those it has; DeviceError when one has gone or cannot be opened. The period is a
/// wish: a JACK server has its own for all, see AudioStream::period().
[[nodiscard]] std::unique_ptr<AudioStream> open_output(const AudioOutput& output,
                                                       const AudioStream::Request& request);

}  // namespace compline::live
