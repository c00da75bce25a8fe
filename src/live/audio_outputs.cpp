#include "quiet_stderr.hpp"
#include "reason.hpp"
#include "rtaudio_devices.hpp"

#include <compline/live/devices.hpp>

namespace compline::live {

namespace {

std::string likely_reason(RtAudio::Api api) {
    switch (api) {
        case RtAudio::UNIX_JACK:
            return "no JACK server is running";
        case RtAudio::LINUX_PULSE:
            return "no PulseAudio server is running";
        case RtAudio::LINUX_ALSA:
            return "no sound card is there to play through";
        default:
            return "no output device";
    }
}

AudioOutput output_of(RtAudio::Api api, const RtAudio::DeviceInfo& info) {
    AudioOutput output;
    output.api = name_of(api);
    output.name = info.name;
    output.channels = static_cast<int>(info.outputChannels);
    if (info.preferredSampleRate > 0)
        output.rate.emplace(static_cast<int>(info.preferredSampleRate));
    output.is_default = info.isDefaultOutput;
    return output;
}

void add_outputs_of(RtAudio::Api api, AudioOutputs& outputs) {
    const RtAudioListing listing = list_devices(api);
    const auto before = outputs.found.size();
    for (const RtAudio::DeviceInfo& info : listing.devices) {
        if (info.outputChannels > 0) outputs.found.push_back(output_of(api, info));
    }
    if (outputs.found.size() > before) return;
    outputs.empty.push_back({name_of(api), reason(likely_reason(api), listing.complaint)});
}

}  // namespace

AudioOutputs audio_outputs(std::string_view api) {
    std::vector<RtAudio::Api> apis;
    RtAudio::getCompiledApi(apis);
    if (const auto one = audio_api(api); one != RtAudio::UNSPECIFIED) apis = {one};
    AudioOutputs outputs;
    const QuietStderr quiet;
    for (const RtAudio::Api asked : apis) add_outputs_of(asked, outputs);
    return outputs;
}

}  // namespace compline::live
