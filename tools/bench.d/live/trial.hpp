#pragma once

#include "../../jack_player.d/jack_player.hpp"
#include "../../live.d/background_program.hpp"
#include "../../live.d/forty_changes.hpp"
#include "../../live.d/jack_server.hpp"
#include "support/temporary_folder.hpp"

#include <nlohmann/json.hpp>

#include <chrono>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace compline::bench {

using Clock = std::chrono::steady_clock;

[[nodiscard]] time::Seconds since(Clock::time_point then);

/// One `compline practice` of the forty changes, with a player outside that hears it and sends
/// them.
class Trial {
  public:
    /// Starts the player, then the program; `input`: what --in has before the player's name.
    /// `changes`: how many are sent; `flooded`: so long, from the first click on, bends are strewn
    /// among them. `terminal`: a descriptor that it is played at; none: there is no terminal.
    /// Throws std::runtime_error and JackError.
    Trial(const std::string& input, int changes, const std::vector<std::string>& more_arguments,
          time::Seconds flooded = time::Seconds(0), std::optional<int> terminal = std::nullopt);

    [[nodiscard]] jack::JackPlayer& player() { return player_; }
    [[nodiscard]] outside::BackgroundProgram& program() { return *program_; }
    [[nodiscard]] const outside::FortyChanges& evening() const { return evening_; }

    /// From the start of the program to its first click, to a period. Throws std::runtime_error
    /// when none comes within twenty seconds.
    [[nodiscard]] time::Seconds to_first_click() const;

    /// The file that the program records to.
    [[nodiscard]] std::filesystem::path take() const { return folder_.file("take.mid"); }

    /// Once the program ended by itself or by a signal: its report. Throws std::runtime_error, with
    /// what it said, when it does not end within `longest` or has no report.
    [[nodiscard]] nlohmann::json report(time::Seconds longest);

  private:
    tests::TemporaryFolder folder_;
    jack::JackPlayer player_;
    outside::FortyChanges evening_;
    Clock::time_point started_;
    std::unique_ptr<outside::BackgroundProgram> program_;
};

}  // namespace compline::bench
