#include "rtmidi_apis.hpp"

#include <compline/live/devices.hpp>
#include <compline/text/words.hpp>

namespace compline::live {

std::string name_of(RtMidi::Api api) {
    return api == RtMidi::UNIX_JACK ? coarse_jack : RtMidi::getApiDisplayName(api);
}

std::vector<RtMidi::Api> midi_apis(std::string_view only) {
    std::vector<RtMidi::Api> apis;
    RtMidi::getCompiledApi(apis);
    for (const auto api : apis) {
        const bool jack = api == RtMidi::UNIX_JACK && text::same_but_for_capitals(only, "JACK");
        if (jack || text::same_but_for_capitals(only, name_of(api))) return {api};
    }
    return apis;
}

}  // namespace compline::live
