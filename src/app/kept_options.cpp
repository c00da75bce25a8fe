#include "kept_options.hpp"

#include <compline/listen/string_offsets.hpp>
#include <compline/practice/pedal.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::app {

std::vector<Option> remembering(std::vector<Option> options, const std::vector<std::string>& except,
                                std::vector<practice::KeptOption>* kept) {
    for (auto& option : options) {
        if (std::find(except.begin(), except.end(), option.name) != except.end()) continue;
        auto read = std::move(option.reader.read);
        option.reader.read = [read, kept](const std::string& name, const std::string& text) {
            read(name, text);
            kept->push_back({name, text});
        };
    }
    return options;
}

std::vector<practice::KeptOption> kept_of(const assess::Settings& settings,
                                          const practice::TakeInfo& info) {
    const assess::Settings usual;
    std::vector<practice::KeptOption> kept;
    if (settings.rhythm) kept.push_back({"--rhythm", settings.rhythm->name()});
    if (settings.tolerance) {
        kept.push_back({"--tolerance", fmt::format("{}", settings.tolerance->milliseconds())});
    }
    if (settings.strictness != usual.strictness) {
        kept.push_back({"--strictness", std::string(harmony::name_of(settings.strictness))});
    }
    if (settings.against != usual.against) {
        kept.push_back({"--against", std::string(assess::name_of(settings.against))});
    }
    if (!info.pickup.empty()) kept.push_back({"--midi-pickup", info.pickup});
    if (pedal_among_music(info)) kept.push_back({"--pedal", info.pedal.words});
    if (!info.voicings.empty()) kept.push_back({"--voicings", info.voicings});
    if (info.delay.constant != time::Seconds(0)) {
        kept.push_back({"--offset", fmt::format("{}", info.delay.constant.milliseconds())});
    }
    const auto by_string = listen::string_offsets_in_words(info.delay.by_string);
    if (!by_string.empty()) kept.push_back({"--string-offsets", by_string});
    return kept;
}

}  // namespace compline::app
