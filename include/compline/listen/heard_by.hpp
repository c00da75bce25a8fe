#pragma once

#include <optional>
#include <string_view>

namespace compline::listen {

/// By what the guitar was heard.
enum class HeardBy {
    midi,   ///< a MIDI pickup: notes on strings
    sound,  ///< its sound: when something was struck and how loudly, neither tone, string nor end
};

[[nodiscard]] constexpr std::string_view name_of(HeardBy heard) {
    return heard == HeardBy::sound ? "sound" : "midi";
}

[[nodiscard]] constexpr std::optional<HeardBy> read_heard_by(std::string_view name) {
    for (const auto heard : {HeardBy::midi, HeardBy::sound}) {
        if (name == name_of(heard)) return heard;
    }
    return std::nullopt;
}

}  // namespace compline::listen
