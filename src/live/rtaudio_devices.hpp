#pragma once

#include <RtAudio.h>

#include <string>
#include <vector>

namespace compline::live {

/// The devices of one API, and the last thing the library complained about while listing them.
struct RtAudioListing {
    std::vector<RtAudio::DeviceInfo> devices;
    std::string complaint;
};

/// Lists with RtAudio 5.2 or 6, whichever is here; nothing of either's ways to fail comes through.
///
/// 5.2 numbers its devices from 0, marks those it could not look into by `probed` and throws
/// RtAudioError. 6 has ids, leaves such devices out and tells a callback; only it defines
/// RTAUDIO_VERSION_MAJOR. (Read in their headers.)
[[nodiscard]] RtAudioListing list_devices(RtAudio::Api api);

}  // namespace compline::live
