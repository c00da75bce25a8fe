#pragma once

// What a take is rendered to, beside what was heard of it.

#include "app/program.hpp"

#include <compline/sound/wav.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>

namespace compline::tests {

/// From its first click on, by the measure by which the player finds it.
inline sound::Stereo rendered(const std::string& take) {
    const auto wav = take + ".wav";
    const auto ran = run_compline({"render", take, wav, "--bits", "float"});
    INFO(shown(ran));
    REQUIRE(ran.status == 0);
    auto sound = sound::read_wav(wav).sound;
    std::ptrdiff_t click = 0;
    const auto is_heard = [](float sample) { return std::fabs(sample) > 0.001F; };
    while (!is_heard(sound.left.at(static_cast<std::size_t>(click))) &&
           !is_heard(sound.right.at(static_cast<std::size_t>(click))))
        ++click;
    sound.left.erase(sound.left.begin(), sound.left.begin() + click);
    sound.right.erase(sound.right.begin(), sound.right.begin() + click);
    return sound;
}

/// The first frame of so many on which they differ.
inline std::optional<std::size_t> first_other(const sound::Stereo& one, const sound::Stereo& two,
                                              std::size_t frames) {
    REQUIRE(one.left.size() >= frames);
    REQUIRE(two.left.size() >= frames);
    for (std::size_t i = 0; i < frames; ++i) {
        if (one.left[i] != two.left[i] || one.right[i] != two.right[i]) return i;
    }
    return std::nullopt;
}

}  // namespace compline::tests
