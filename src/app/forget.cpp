#include "forget.hpp"

#include "history_file.hpp"
#include "last_evening.hpp"
#include "stop_signals.hpp"
#include "terminal_talk.hpp"
#include "weeks_options.hpp"

#include <compline/files/file_io.hpp>

#include <fmt/format.h>
#include <unistd.h>

#include <system_error>

namespace compline::app {

namespace {

std::string counted(std::size_t n, const char* one, const char* many) {
    return fmt::format("{} {}", n, n == 1 ? one : many);
}

std::string sums_words(const Forgettable& what) {
    auto words = counted(what.takes.size(), "take", "takes") + " of the history";
    if (what.homework > 0)
        words += fmt::format(", {} of homework", counted(what.homework, "piece", "pieces"));
    return words + ", " + counted(what.files.size(), "file", "files");
}

/// What goes, a line each, not more than fit a screen; and what stays.
std::string shown(const Forgettable& what) {
    constexpr std::size_t most = 12;
    std::string text;
    const auto lines = lines_of(what);
    for (std::size_t i = 0; i < lines.size() && i < most; ++i) text += "  " + lines[i] + "\n";
    if (lines.size() > most) text += fmt::format("  and {} more\n", lines.size() - most);
    if (what.elsewhere > 0) {
        text += fmt::format("Files that do not lie among your takes stay where they are: {}.\n",
                            what.elsewhere);
    }
    return text;
}

/// Throws BadInput where nobody can be asked.
bool is_said_at_terminal(const Forgettable& what) {
    if (::isatty(STDIN_FILENO) != 1) {
        throw BadInput(
            "nothing was removed: nobody is at the terminal to be asked; --yes removes it unasked");
    }
    const StopSignals signals;
    TerminalTalk talk(STDIN_FILENO);
    return is_meant(what, talk);
}

/// Those that could not be removed are said.
Status remove_files(const std::vector<std::filesystem::path>& files) {
    auto status = Status::done;
    for (const auto& file : files) {
        std::error_code why;
        std::filesystem::remove(file, why);
        if (!why) continue;
        say(fmt::format("{} is there still: {}", files::name_of(file), why.message()));
        status = Status::could_not;
    }
    return status;
}

void remove_rows(const ToForget& what, const Forgettable& found) {
    auto history = open_history();
    if (!history) return;
    if (!what.player.empty()) {
        history->forget_player(what.player);
        forget_evening_of(what.player);
        return;
    }
    std::vector<std::string> fingerprints;
    for (const auto& take : found.takes) fingerprints.push_back(take.fingerprint);
    if (!fingerprints.empty()) history->forget(fingerprints);
}

}  // namespace

bool is_meant(const Forgettable& what, Talk& talk) {
    bool meant = false;
    Question question;
    question.words = [&] {
        return "This goes for good, " + sums_words(what) + ":\n" + shown(what) +
               "Remove it? yes or no";
    };
    question.usual = [] { return "no"; };
    question.take = [&](const std::string& answer) {
        meant = read_yes(answer);
        return Then::on;
    };
    return hold({question}, talk) == Conversation::held && meant;
}

Status forget(const ToForget& what) {
    const auto found = reading_history(
        [&] { return what.player.empty() ? takes_named(what.takes) : all_of_player(what.player); });
    if (!what.unasked && !is_said_at_terminal(found)) {
        say("nothing was removed");
        return Status::done;
    }
    // The rows first: a file that is left can be forgotten by its name once more.
    remove_rows(what, found);
    const auto status = remove_files(found.files);
    if (status == Status::done) fmt::print("Removed: {}.\n", sums_words(found));
    return status;
}

}  // namespace compline::app
