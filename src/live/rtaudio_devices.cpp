#include "rtaudio_devices.hpp"

#include <exception>

namespace compline::live {

namespace {

#ifdef RTAUDIO_VERSION_MAJOR

void list_into(RtAudioListing& listing, RtAudio::Api api) {
    RtAudio audio(
        api, [&listing](RtAudioErrorType, const std::string& text) { listing.complaint = text; });
    for (const unsigned id : audio.getDeviceIds()) {
        listing.devices.push_back(audio.getDeviceInfo(id));
    }
}

#else

void list_into(RtAudioListing& listing, RtAudio::Api api) {
    RtAudio audio(api);
    audio.showWarnings(false);
    const unsigned count = audio.getDeviceCount();
    for (unsigned index = 0; index < count; ++index) {
        const RtAudio::DeviceInfo info = audio.getDeviceInfo(index);
        if (info.probed) listing.devices.push_back(info);
    }
}

#endif

}  // namespace

RtAudioListing list_devices(RtAudio::Api api) {
    RtAudioListing listing;
    try {
        list_into(listing, api);
    } catch (const std::exception& e) {  // RtAudioError is one
        listing.complaint = e.what();
    }
    return listing;
}

}  // namespace compline::live
