#pragma once

#include <compline/chart/route.hpp>
#include <compline/time/timeline.hpp>

#include <CLI/CLI.hpp>

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace compline::app {

// How a command is added: a file of its own with one function that takes the program, adds a
// subcommand with its options, and hands over what it runs (see DEVELOPERS.md).

/// What a command ends with.
enum class Status {
    done = 0,       ///< also: any mistakes in playing, no devices found
    could_not = 1,  ///< a stream or port died, disk full, the demo missed a planted mistake
    bad_input = 2,  ///< bad usage, or a file that cannot be read
};

/// The command that was asked for leaves its status here.
struct Program {
    CLI::App cli;
    Status status = Status::done;
};

/// Something the player gave that cannot be used: says what was found and what would do.
class BadInput : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

void add_check(Program& program);
void add_demo(Program& program);
void add_devices(Program& program);
void add_plan(Program& program);
void add_practice(Program& program);
void add_render(Program& program);
void add_score(Program& program);
void add_show(Program& program);

/// A line for the player beside the results: stderr, with printable() applied.
void say(std::string_view line);

/// Text from outside (a file's name or contents) made safe for a terminal: chart::printable on each
/// of its lines, uncut.
[[nodiscard]] std::string printable(std::string_view text);

/// An unrolled chart from a file. Throws chart::ChartError.
[[nodiscard]] chart::Form load_form(const std::string& path);

/// The groove of a form, played as its chart says, at a tempo or at its own.
[[nodiscard]] time::Groove groove_of(const chart::Form& form, std::optional<double> tempo);

/// Reads a number option, such as 20, +20 or -2.5: finite, within the range given. Throws BadInput
/// naming the option.
[[nodiscard]] double read_number(std::string_view option, const std::string& text, double least,
                                 double most);
[[nodiscard]] int read_count(std::string_view option, const std::string& text, int least, int most);

/// The options that commands share, none where they were not given. Throw BadInput.
[[nodiscard]] std::optional<double> read_tempo(const std::string& text);
[[nodiscard]] std::optional<chart::Passage> read_bars(const chart::Form& form,
                                                      const std::string& text);

}  // namespace compline::app
