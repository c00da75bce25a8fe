#include "quiet_stderr.hpp"
#include "reason.hpp"
#include "rtaudio_devices.hpp"

#include <compline/live/audio_stream.hpp>
#include <compline/live/device_choice.hpp>
#include <compline/live/outlet.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <future>
#include <thread>

namespace compline::live {

namespace {

/// What the library's thread uses: it outlives a stream that cannot be closed.
struct Stream {
    QuietCerr quiet;
    std::unique_ptr<RtAudio> audio;
    StreamPlan plan;
    Outlet outlet;
    std::vector<float> spare;  // the right side of an output with one channel
    std::vector<float> sum;    // of the input's channels

    static int callback(void* output, void* input, unsigned frames, double,
                        RtAudioStreamStatus status, void* stream) {
        static_cast<Stream*>(stream)->run(static_cast<float*>(output),
                                          static_cast<const float*>(input), frames, status);
        return 0;
    }

    [[nodiscard]] const float* heard(const float* input, unsigned frames) noexcept {
        if (!plan.input || input == nullptr) return nullptr;
        if (plan.input->channels == 1) return input;
        std::copy_n(input, frames, sum.begin());
        for (unsigned channel = 1; channel < plan.input->channels; ++channel) {
            for (unsigned i = 0; i < frames; ++i) sum[i] += input[channel * frames + i];
        }
        return sum.data();
    }

    void run(float* output, const float* input, unsigned frames,
             RtAudioStreamStatus status) noexcept {
        const bool mono = plan.output.channels == 1;
        float* const right = mono ? spare.data() : output + frames;
        // RtAudio asks for output first and reads input then: what it hands over came in by the
        // call before (JACK: measured, 2026-11-30; ALSA and PulseAudio: read in RtAudio 5.2).
        const auto period = static_cast<int>(frames);
        const AudioTask::Block block{output, right,      period, heard(input, frames),
                                     period, status != 0};
        if (!outlet.run(block)) {
            std::fill_n(output, std::size_t{frames} * plan.output.channels, 0.0F);
        } else if (mono) {
            for (unsigned i = 0; i < frames; ++i) output[i] = 0.5F * (output[i] + right[i]);
        }
    }
};

std::string list(const std::vector<unsigned>& rates) {
    std::string text;
    for (const unsigned rate : rates) text += fmt::format("{}{}", text.empty() ? "" : ", ", rate);
    return text;
}

unsigned rate_for(const std::optional<time::SampleRate>& wish, const AudioOutput& output,
                  const RtAudio::DeviceInfo& info) {
    if (!wish) return info.preferredSampleRate > 0 ? info.preferredSampleRate : 48000;
    const auto rate = static_cast<unsigned>(wish->hz());
    const auto& has = info.sampleRates;
    if (has.empty() || std::find(has.begin(), has.end(), rate) != has.end()) return rate;
    throw text::BadInput(fmt::format("{}:{} does not run at {} Hz, but at {}", output.api,
                                     output.name, rate, list(has)));
}

unsigned number_of(const std::optional<NumberedDevice>& device, const std::string& name) {
    if (!device) throw DeviceError(fmt::format("{} has gone", name));
    return device->number;
}

StreamSide side_of(RtAudio& audio, const SoundInput& input) {
    StreamSide side;
    const auto name = fmt::format("{}:{}", input.api, input.name);
    const auto device = find_input(audio, input.name);
    side.device = number_of(device, name);
    side.channels = input.channel ? 1 : device->info.inputChannels;
    if (!input.channel) return side;
    side.first_channel = static_cast<unsigned>(*input.channel - 1);
    if (side.first_channel >= device->info.inputChannels) {
        throw text::BadInput(fmt::format("{} has {} channels, and no channel {}", name,
                                         device->info.inputChannels, *input.channel));
    }
    return side;
}

class RtAudioStream final : public AudioStream {
  public:
    RtAudioStream(const AudioOutput& output, const Request& request);
    /// Stops it if need be. A stream whose server has died is left to itself after half a second.
    ~RtAudioStream() override;

    [[nodiscard]] std::string name() const override { return name_; }
    [[nodiscard]] time::SampleRate rate() const override {
        return time::SampleRate(static_cast<int>(stream_->plan.rate));
    }
    [[nodiscard]] int period() const override { return static_cast<int>(stream_->plan.frames); }
    [[nodiscard]] time::Seconds latency() const override { return latency_; }
    void start(AudioTask& task) override;
    [[nodiscard]] std::string complaint() const override { return last_complaint(); }

  private:
    std::string name_;
    std::shared_ptr<Stream> stream_;
    time::Seconds latency_{0};
};

RtAudioStream::RtAudioStream(const AudioOutput& output, const Request& request)
    : name_(fmt::format("{}:{}", output.api, output.name)), stream_(std::make_shared<Stream>()) {
    const QuietStderr quiet;
    forget_complaints();
    stream_->audio = make_audio(audio_api(output.api));
    const auto device = find_output(*stream_->audio, output.name);
    StreamPlan& plan = stream_->plan;
    plan.output.device = number_of(device, name_);
    plan.output.channels = std::min(2U, device->info.outputChannels);
    if (request.input) plan.input = side_of(*stream_->audio, *request.input);
    plan.rate = rate_for(request.rate, output, device->info);
    plan.frames = static_cast<unsigned>(request.period.value_or(usual_period));
    plan.callback = &Stream::callback;
    plan.user = stream_.get();
    try {
        open_stream(*stream_->audio, plan);
    } catch (const DeviceError& error) {
        throw DeviceError(reason(
            fmt::format("{} cannot be opened at {} Hz, {} frames", name_, plan.rate, plan.frames),
            error.what()));
    }
    stream_->spare.resize(plan.frames);
    stream_->sum.resize(plan.frames);
    const long latency = stream_->audio->getStreamLatency();
    latency_ = time::time_of(time::Frames(std::max(0L, latency)), rate());
}

RtAudioStream::~RtAudioStream() {
    stream_->outlet.pull();
    // A dead server may never answer: whoever waits for it must not wait for ever.
    std::promise<void> closed;
    auto done = closed.get_future();
    std::thread closer([stream = stream_, closed = std::move(closed)]() mutable {
        close_stream(*stream->audio);
        closed.set_value();
    });
    if (done.wait_for(std::chrono::milliseconds(500)) == std::future_status::ready) {
        closer.join();
    } else {
        closer.detach();
    }
}

void RtAudioStream::start(AudioTask& task) {
    stream_->outlet.plug(task);
    start_stream(*stream_->audio);
    forget_complaints();  // from here on one is news
}

}  // namespace

std::unique_ptr<AudioStream> open_output(const AudioOutput& output,
                                         const AudioStream::Request& request) {
    return std::make_unique<RtAudioStream>(output, request);
}

}  // namespace compline::live
