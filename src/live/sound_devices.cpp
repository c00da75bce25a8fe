#include "quiet_stderr.hpp"
#include "reason.hpp"
#include "rtaudio_devices.hpp"

#include <compline/live/devices.hpp>

#include <fmt/format.h>

namespace compline::live {

namespace {

/// Why an API has nothing to play through, or to hear from.
std::string likely_reason(RtAudio::Api api, bool outputs) {
    switch (api) {
        case RtAudio::UNIX_JACK:
            return outputs ? "no JACK server is running" : "no JACK server with inputs is running";
        case RtAudio::LINUX_PULSE:
            return "no PulseAudio server is running";
        case RtAudio::LINUX_ALSA:
            return outputs ? "no sound card is there to play through"
                           : "no sound card is there to hear from";
        default:
            return outputs ? "no output device" : "no input device";
    }
}

/// What is said of both alike.
template <typename Device>
Device device_of(RtAudio::Api api, const RtAudio::DeviceInfo& info, unsigned channels,
                 bool is_default) {
    Device device;
    device.api = name_of(api);
    device.name = info.name;
    device.channels = static_cast<int>(channels);
    if (info.preferredSampleRate > 0)
        device.rate.emplace(static_cast<int>(info.preferredSampleRate));
    device.is_default = is_default;
    return device;
}

void add(RtAudio::Api api, const RtAudio::DeviceInfo& info, AudioOutputs& into) {
    if (info.outputChannels == 0) return;
    into.found.push_back(
        device_of<AudioOutput>(api, info, info.outputChannels, info.isDefaultOutput));
}

void add(RtAudio::Api api, const RtAudio::DeviceInfo& info, SoundInputs& into) {
    if (info.inputChannels == 0) return;
    into.found.push_back(device_of<SoundInput>(api, info, info.inputChannels, info.isDefaultInput));
}

template <typename Devices>
Devices devices_of(std::string_view asked, bool outputs) {
    std::vector<RtAudio::Api> apis;
    RtAudio::getCompiledApi(apis);
    if (const auto one = audio_api(asked); one != RtAudio::UNSPECIFIED) apis = {one};
    Devices devices;
    const QuietStderr quiet;
    for (const RtAudio::Api api : apis) {
        const RtAudioListing listing = list_devices(api);
        const auto before = devices.found.size();
        for (const RtAudio::DeviceInfo& info : listing.devices) add(api, info, devices);
        if (devices.found.size() > before) continue;
        devices.empty.push_back(
            {name_of(api), reason(likely_reason(api, outputs), listing.complaint)});
    }
    return devices;
}

}  // namespace

AudioOutputs audio_outputs(std::string_view api) { return devices_of<AudioOutputs>(api, true); }

SoundInputs sound_inputs(std::string_view api) { return devices_of<SoundInputs>(api, false); }

std::string in_words(const SoundInput& input) {
    return fmt::format("{}{}:{}{}", sound_prefix, input.api, input.name,
                       input.channel ? fmt::format("/{}", *input.channel) : "");
}

}  // namespace compline::live
