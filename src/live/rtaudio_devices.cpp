#include "rtaudio_devices.hpp"

#include <compline/live/device_choice.hpp>
#include <compline/live/real_time.hpp>
#include <compline/text/words.hpp>

#include <exception>
#include <mutex>

namespace compline::live {

namespace {

// RtAudio 5.2 gives its error callback nothing to remember a stream by.
std::mutex complaint_mutex;
std::string complaint;

void keep(const std::string& text) {
    const std::lock_guard lock(complaint_mutex);
    complaint = text;
}

#ifdef RTAUDIO_VERSION_MAJOR

std::vector<unsigned> numbers(RtAudio& audio) { return audio.getDeviceIds(); }
bool is_there(const RtAudio::DeviceInfo&) { return true; }

void must(RtAudioErrorType result) {
    if (result != RTAUDIO_NO_ERROR) throw DeviceError(last_complaint());
}

void open(RtAudio& audio, RtAudio::StreamParameters& output, RtAudio::StreamParameters* input,
          RtAudio::StreamOptions& options, StreamPlan& plan) {
    must(audio.openStream(&output, input, RTAUDIO_FLOAT32, plan.rate, &plan.frames, plan.callback,
                          plan.user, &options));
}

void start(RtAudio& audio) { must(audio.startStream()); }

#else

void keep_complaint(RtAudioError::Type, const std::string& text) { keep(text); }

std::vector<unsigned> numbers(RtAudio& audio) {
    std::vector<unsigned> all(audio.getDeviceCount());
    for (unsigned i = 0; i < all.size(); ++i) all[i] = i;
    return all;
}
bool is_there(const RtAudio::DeviceInfo& info) { return info.probed; }

void open(RtAudio& audio, RtAudio::StreamParameters& output, RtAudio::StreamParameters* input,
          RtAudio::StreamOptions& options, StreamPlan& plan) {
    audio.openStream(&output, input, RTAUDIO_FLOAT32, plan.rate, &plan.frames, plan.callback,
                     plan.user, &options, &keep_complaint);
}

void start(RtAudio& audio) { audio.startStream(); }

#endif

std::vector<NumberedDevice> all_devices(RtAudio& audio) {
    std::vector<NumberedDevice> devices;
    for (const unsigned number : numbers(audio)) {
        NumberedDevice device{number, audio.getDeviceInfo(number)};
        if (is_there(device.info)) devices.push_back(std::move(device));
    }
    return devices;
}

std::optional<NumberedDevice> find_device(RtAudio& audio, const std::string& name,
                                          unsigned RtAudio::DeviceInfo::*channels) {
    for (auto& device : all_devices(audio)) {
        if (device.info.name == name && device.info.*channels > 0) return std::move(device);
    }
    return std::nullopt;
}

RtAudio::StreamParameters parameters_of(const StreamSide& side) {
    RtAudio::StreamParameters parameters;
    parameters.deviceId = side.device;
    parameters.nChannels = side.channels;
    parameters.firstChannel = side.first_channel;
    return parameters;
}

}  // namespace

std::string last_complaint() {
    const std::lock_guard lock(complaint_mutex);
    return complaint;
}

void forget_complaints() { keep(""); }

std::unique_ptr<RtAudio> make_audio(RtAudio::Api api) {
#ifdef RTAUDIO_VERSION_MAJOR
    return std::make_unique<RtAudio>(api,
                                     [](RtAudioErrorType, const std::string& text) { keep(text); });
#else
    auto audio = std::make_unique<RtAudio>(api);
    audio->showWarnings(false);
    return audio;
#endif
}

std::string name_of(RtAudio::Api api) {
    switch (api) {
        case RtAudio::UNIX_JACK:
            return "JACK";
        case RtAudio::LINUX_PULSE:
            return "PulseAudio";
        default:
            return RtAudio::getApiDisplayName(api);
    }
}

RtAudio::Api audio_api(std::string_view name) {
    std::vector<RtAudio::Api> apis;
    RtAudio::getCompiledApi(apis);
    for (const auto api : apis) {
        if (text::same_but_for_capitals(name_of(api), name)) return api;
    }
    return RtAudio::UNSPECIFIED;
}

std::optional<NumberedDevice> find_output(RtAudio& audio, const std::string& name) {
    return find_device(audio, name, &RtAudio::DeviceInfo::outputChannels);
}

std::optional<NumberedDevice> find_input(RtAudio& audio, const std::string& name) {
    return find_device(audio, name, &RtAudio::DeviceInfo::inputChannels);
}

void open_stream(RtAudio& audio, StreamPlan& plan) {
    auto output = parameters_of(plan.output);
    std::optional<RtAudio::StreamParameters> input;
    if (plan.input) input = parameters_of(*plan.input);
    RtAudio::StreamOptions options;
    options.flags = RTAUDIO_NONINTERLEAVED;
    // Asked for only where it is granted: not every way out goes on without it when it is refused.
    if (const auto priority = real_time_priority()) {
        options.flags |= RTAUDIO_SCHEDULE_REALTIME;
        options.priority = *priority;
    }
    options.numberOfBuffers = 2;
    options.streamName = "compline";  // as JACK and PulseAudio show us
    try {
        open(audio, output, input ? &*input : nullptr, options, plan);
    } catch (const DeviceError&) {
        throw;
    } catch (const std::exception& e) {  // RtAudioError is one
        throw DeviceError(e.what());
    }
}

void start_stream(RtAudio& audio) {
    try {
        start(audio);
    } catch (const DeviceError&) {
        throw;
    } catch (const std::exception& e) {
        throw DeviceError(e.what());
    }
}

void close_stream(RtAudio& audio) noexcept {
    try {
        // stopStream() would wait for the callback to play to its end, for ever when the server is
        // dead (read in RtAudio 5.2 and 6).
        if (audio.isStreamRunning()) audio.abortStream();
        if (audio.isStreamOpen()) audio.closeStream();
    } catch (const std::exception& e) {
        keep(e.what());
    }
}

RtAudioListing list_devices(RtAudio::Api api) {
    RtAudioListing listing;
    forget_complaints();
    try {
        const auto audio = make_audio(api);
        for (auto& device : all_devices(*audio)) listing.devices.push_back(std::move(device.info));
        listing.complaint = last_complaint();
    } catch (const std::exception& e) {  // RtAudioError is one
        listing.complaint = e.what();
    }
    return listing;
}

}  // namespace compline::live
