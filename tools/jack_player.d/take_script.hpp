#pragma once

#include "jack_player.hpp"

#include <compline/practice/take.hpp>
#include <compline/time/units.hpp>

#include <filesystem>
#include <optional>
#include <stdexcept>
#include <vector>

namespace compline::jack {

/// A file that holds no take that could be played; what() has the path and the reason.
class TakeError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

struct LoadedTake {
    practice::Take take;
    /// How long before bar 1 the file starts: the count-in of a take recorded with one, else 0.
    time::Seconds lead;
};

/// Throws TakeError: no such file, no MIDI file, cut short, or nothing in it to play.
[[nodiscard]] LoadedTake load_take(const std::filesystem::path& path);

/// A take's messages, bar 1 being `count_in` after the first click.
[[nodiscard]] std::vector<ScriptedMessage> script_of(const practice::Take& take,
                                                     time::Seconds count_in, time::SampleRate rate);

}  // namespace compline::jack
