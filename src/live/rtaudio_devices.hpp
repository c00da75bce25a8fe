#pragma once

#include <RtAudio.h>

#include <memory>
#include <optional>
#include <string>
#include <string_view>
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

/// A library object for one API whose complaints are kept instead of thrown or printed, as far as
/// the library lets them; see last_complaint().
[[nodiscard]] std::unique_ptr<RtAudio> make_audio(RtAudio::Api api);

/// Of one side of a stream.
struct StreamSide {
    unsigned device = 0;
    unsigned channels = 2;
    unsigned first_channel = 0;
};
/// What openStream() is to be given.
struct StreamPlan {
    StreamSide output;
    std::optional<StreamSide> input;
    unsigned rate = 48000;
    unsigned frames = 256;  ///< in: wished for; out: what it became
    RtAudioCallback callback = nullptr;
    void* user = nullptr;
};
/// Float samples, one channel behind the other. Throws DeviceError.
void open_stream(RtAudio& audio, StreamPlan& plan);
/// Throws DeviceError.
void start_stream(RtAudio& audio);
/// Stops it, without waiting for what is still to be played, and closes it. Nothing comes through.
void close_stream(RtAudio& audio) noexcept;

struct NumberedDevice {
    unsigned number = 0;
    RtAudio::DeviceInfo info;
};
/// The output, or input, of that name, as the library numbers it now; none when it has gone.
[[nodiscard]] std::optional<NumberedDevice> find_output(RtAudio& audio, const std::string& name);
[[nodiscard]] std::optional<NumberedDevice> find_input(RtAudio& audio, const std::string& name);

/// The last thing that the library complained about, in any stream, since forget_complaints().
///
/// Threads: any
[[nodiscard]] std::string last_complaint();
void forget_complaints();

/// By the name that we use, in whatever case; UNSPECIFIED when there is none such.
[[nodiscard]] RtAudio::Api audio_api(std::string_view name);
[[nodiscard]] std::string name_of(RtAudio::Api api);

}  // namespace compline::live
