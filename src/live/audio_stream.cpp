#include "quiet_stderr.hpp"
#include "reason.hpp"
#include "rtaudio_devices.hpp"

#include <compline/live/audio_stream.hpp>
#include <compline/live/device_choice.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <future>
#include <thread>

namespace compline::live {

struct AudioStream::Stream {
    std::unique_ptr<RtAudio> audio;
    StreamPlan plan;
    time::Seconds latency{0};
    std::atomic<Playback*> playback{nullptr};
    std::vector<float> spare;  // the right side of an output with one channel
    static_assert(std::atomic<Playback*>::is_always_lock_free);

    static int callback(void* output, void*, unsigned frames, double, RtAudioStreamStatus status,
                        void* stream) {
        static_cast<Stream*>(stream)->play(static_cast<float*>(output), frames, status);
        return 0;
    }

    void play(float* output, unsigned frames, RtAudioStreamStatus status) noexcept {
        Playback* const to = playback.load(std::memory_order_acquire);
        if (to == nullptr) {
            std::fill_n(output, std::size_t{frames} * plan.channels, 0.0F);
            return;
        }
        const bool interrupted = (status & RTAUDIO_OUTPUT_UNDERFLOW) != 0;
        const bool mono = plan.channels == 1;
        float* const right = mono ? spare.data() : output + frames;
        to->play(output, right, static_cast<int>(frames), interrupted);
        if (!mono) return;
        for (unsigned i = 0; i < frames; ++i) output[i] = 0.5F * (output[i] + right[i]);
    }
};

namespace {

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
    throw ChoiceError(fmt::format("{}:{} does not run at {} Hz, but at {}", output.api, output.name,
                                  rate, list(has)));
}

}  // namespace

AudioStream::AudioStream(const AudioOutput& output, const Request& request)
    : stream_(std::make_shared<Stream>()) {
    const QuietStderr quiet;
    forget_complaints();
    stream_->audio = make_audio(audio_api(output.api));
    const auto device = find_device(*stream_->audio, output.name);
    if (!device) throw DeviceError(fmt::format("{}:{} has gone", output.api, output.name));
    StreamPlan& plan = stream_->plan;
    plan.device = device->number;
    plan.channels = std::min(2U, device->info.outputChannels);
    plan.rate = rate_for(request.rate, output, device->info);
    plan.frames = static_cast<unsigned>(request.period.value_or(usual_period));
    plan.callback = &Stream::callback;
    plan.user = stream_.get();
    try {
        open_stream(*stream_->audio, plan);
    } catch (const DeviceError& error) {
        throw DeviceError(reason(fmt::format("{}:{} cannot be opened at {} Hz, {} frames",
                                             output.api, output.name, plan.rate, plan.frames),
                                 error.what()));
    }
    stream_->spare.resize(plan.frames);
    const long latency = stream_->audio->getStreamLatency();
    stream_->latency = time::time_of(time::Frames(std::max(0L, latency)), rate());
}

AudioStream::~AudioStream() {
    stream_->playback.store(nullptr, std::memory_order_release);
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

time::SampleRate AudioStream::rate() const {
    return time::SampleRate(static_cast<int>(stream_->plan.rate));
}

int AudioStream::period() const { return static_cast<int>(stream_->plan.frames); }

time::Seconds AudioStream::latency() const { return stream_->latency; }

void AudioStream::start(Playback& playback) {
    stream_->playback.store(&playback, std::memory_order_release);
    start_stream(*stream_->audio);
    forget_complaints();  // from here on one is news
}

std::string AudioStream::complaint() const { return last_complaint(); }

}  // namespace compline::live
