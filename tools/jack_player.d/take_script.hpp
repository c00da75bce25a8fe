#pragma once

#include "jack_player.hpp"

#include <compline/practice/take.hpp>
#include <compline/time/units.hpp>

#include <filesystem>
#include <optional>
#include <vector>

namespace compline::jack {

struct LoadedTake {
    practice::Take take;
    /// How long before bar 1 the file starts: the count-in of a take recorded with one, else 0.
    time::Seconds lead;
};

/// Throws text::BadInput: no such file, no MIDI file, cut short, or nothing in it to play.
[[nodiscard]] LoadedTake load_take(const std::filesystem::path& path);

/// A take's messages, bar 1 being `count_in` after the first click.
[[nodiscard]] std::vector<ScriptedMessage> script_of(const practice::Take& take,
                                                     time::Seconds count_in, time::SampleRate rate);

}  // namespace compline::jack
