#pragma once

#include <compline/chart/route.hpp>
#include <compline/time/timeline.hpp>

#include <functional>
#include <initializer_list>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace compline::app {

// How a command is added: a file of its own with one function that gives the command, its options
// and what it runs, as data (see DEVELOPERS.md). What reads them from a command line is
// command_line.hpp.

/// What a command ends with.
enum class Status {
    done = 0,       ///< also: any mistakes in playing, no devices found
    could_not = 1,  ///< a stream or port died, disk full, the demo missed a planted mistake
    bad_input = 2,  ///< bad usage, or a file that cannot be read
};

/// One option of a command.
struct Option {
    /// Where what is typed goes: a value once, values (each time the option stands there, or all
    /// words in its place), or that it was there at all.
    using Place = std::variant<std::string*, std::vector<std::string>*, bool*>;

    std::string name;     ///< "--tempo"; without dashes, "CHART", a word that stands in its place
    std::string value;    ///< what help calls the value, "BPM"; empty for a flag and for a word
    std::string meaning;  ///< for help, its default at the end
    Place place;          ///< must outlive the command
    std::string group = {};  ///< its heading in help; empty: among the first ones
    bool needed = false;
};

/// One command.
struct Command {
    std::string name;
    std::string purpose;
    std::vector<Option> options;
    std::function<Status()> run;  ///< when all options have got their values; may throw
    std::string footer = {};      ///< the end of its help
};

/// The option must be given.
[[nodiscard]] Option needed(Option option);

/// The options, each under this heading in help.
[[nodiscard]] std::vector<Option> grouped(const std::string& heading, std::vector<Option> options);

/// One list of several, in this order.
[[nodiscard]] std::vector<Option> joined(std::initializer_list<std::vector<Option>> lists);

/// Something the player gave that cannot be used: says what was found and what would do.
class BadInput : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

[[nodiscard]] Command check_command();
[[nodiscard]] Command demo_command();
[[nodiscard]] Command devices_command();
[[nodiscard]] Command plan_command();
[[nodiscard]] Command practice_command();
[[nodiscard]] Command render_command();
[[nodiscard]] Command score_command();
[[nodiscard]] Command show_command();

/// A line for the player beside the results: stderr, with printable() applied. A stderr that is
/// closed or full ends nothing: then it is not said.
void say(std::string_view line) noexcept;
/// The same for text that is safe for a terminal, as it is.
void say_as_is(std::string_view text) noexcept;

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
