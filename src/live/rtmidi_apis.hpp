#pragma once

#include <RtMidi.h>

#include <string>
#include <string_view>
#include <vector>

namespace compline::live {

/// What we call an API of RtMidi's: "ALSA", "RtMidi/JACK", "CoreMidi".
[[nodiscard]] std::string name_of(RtMidi::Api api);

/// All that RtMidi was built with; or the one of that name, in whatever case ("JACK" and
/// "RtMidi/JACK" both mean JACK).
[[nodiscard]] std::vector<RtMidi::Api> midi_apis(std::string_view only);

}  // namespace compline::live
