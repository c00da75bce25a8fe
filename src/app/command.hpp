#pragma once

#include "option.hpp"

#include <compline/chart/form.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::app {

// How a command is added: a file of its own with one function that gives the command, its options
// and what it runs, as data (see DEVELOPERS.md). What reads them from a command line is
// command_line.hpp.

/// What this program calls itself, in takes too.
inline constexpr const char* program = "compline " COMPLINE_VERSION;
inline constexpr const char* version = COMPLINE_VERSION;

/// What a command ends with.
enum class Status {
    done = 0,       ///< also: any mistakes in playing, no devices found
    could_not = 1,  ///< a stream or port died, disk full, the demo missed a planted mistake
    bad_input = 2,  ///< bad usage, or a file that cannot be read
};

/// One command.
struct ProgramCommand {
    std::string name;
    std::string purpose;
    std::vector<Option> options;
    std::function<Status()> run;  ///< when all options have got their values; may throw
    std::string footer = {};      ///< the end of its help
    /// Given all that was typed behind `compline`, before it runs.
    std::function<void(const std::vector<std::string>& words)> hears = {};
    /// Read from the player's settings alone.
    std::vector<Option> settled = {};
    /// Name of the MIDI input that the guitar comes by, for a command that opens one; empty: none.
    std::function<std::string()> port = {};
};

/// All of them, as help lists them.
[[nodiscard]] std::vector<ProgramCommand> all_commands();

[[nodiscard]] ProgramCommand calibrate_command();
[[nodiscard]] ProgramCommand check_command();
[[nodiscard]] ProgramCommand compare_command();
[[nodiscard]] ProgramCommand demo_command();
[[nodiscard]] ProgramCommand devices_command();
[[nodiscard]] ProgramCommand history_command();
[[nodiscard]] ProgramCommand homework_command();
[[nodiscard]] ProgramCommand new_command();
[[nodiscard]] ProgramCommand next_command();
[[nodiscard]] ProgramCommand plan_command();
[[nodiscard]] ProgramCommand practice_command();
[[nodiscard]] ProgramCommand render_command();
[[nodiscard]] ProgramCommand score_command();
[[nodiscard]] ProgramCommand settings_command();
[[nodiscard]] ProgramCommand setup_command();
[[nodiscard]] ProgramCommand show_command();

/// A line for the player beside the results: stderr, with text::printable_lines() applied. A stderr
/// that is closed or full ends nothing: then it is not said.
void say(std::string_view line) noexcept;
/// The same for text that is safe for a terminal, as it is.
void say_as_is(std::string_view text) noexcept;

/// The name of a file that stands for the standard input.
inline constexpr const char* standard_input = "-";

/// A file as messages call it.
[[nodiscard]] std::string spoken_name(const std::string& path);

/// A chart, unrolled, and its text.
struct ChartFile {
    chart::Form form;
    std::string text;
};

/// From a file or the standard input; a section that is never played is said. Throws
/// chart::ChartError.
[[nodiscard]] ChartFile load_chart_file(const std::string& path);
[[nodiscard]] inline chart::Form load_form(const std::string& path) {
    return load_chart_file(path).form;
}

/// The option that commands share.
[[nodiscard]] Option tempo_option(std::optional<double>& tempo, const std::string& meaning,
                                  const std::string& usual);

/// --bars, which needs the form to be read; none where it was not given. Throws BadInput.
[[nodiscard]] std::optional<chart::Passage> read_bars(const chart::Form& form,
                                                      const std::string& text);

}  // namespace compline::app
