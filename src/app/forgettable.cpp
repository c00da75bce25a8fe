#include "forgettable.hpp"

#include "history_file.hpp"
#include "session_files.hpp"
#include "take_history.hpp"
#include "take_input.hpp"
#include "weeks_options.hpp"

#include <compline/files/file_io.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/spoken_date.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <system_error>

namespace compline::app {

namespace fs = std::filesystem;

namespace {

using history::KnownTake;

fs::path path_of(const KnownTake& take) { return fs::path(take.folder) / take.file; }

bool is_there(const fs::path& file) {
    std::error_code unknown;
    return fs::is_regular_file(file, unknown);
}

/// Whether a file lies among the player's own takes, whatever links lead there.
bool is_own(const fs::path& file) {
    const auto folder = takes_folder();
    std::error_code unknown;
    return folder && fs::equivalent(file.parent_path(), *folder, unknown);
}

void add_file(const fs::path& file, Forgettable& what) {
    if (!is_there(file)) return;
    if (!is_own(file)) {
        ++what.elsewhere;
    } else if (std::find(what.files.begin(), what.files.end(), file) == what.files.end()) {
        what.files.push_back(file);
    }
}

void add_take(const KnownTake& take, Forgettable& what) {
    const bool is_in = std::any_of(what.takes.begin(), what.takes.end(), [&](const auto& other) {
        return other.fingerprint == take.fingerprint;
    });
    if (is_in) return;
    what.takes.push_back(take);
    add_file(path_of(take), what);
}

/// By its bytes where there is such a file, else by its path or its name.
std::vector<KnownTake> kept_as(const std::string& name, const std::vector<KnownTake>& known) {
    std::vector<KnownTake> found;
    const auto whole = from_the_root(name);
    const auto fingerprint = is_there(name) ? fingerprint_of(name) : "";
    for (const auto& take : known) {
        if (fingerprint.empty() ? path_of(take) == whole : take.fingerprint == fingerprint) {
            found.push_back(take);
        }
    }
    if (!found.empty() || !fingerprint.empty()) return found;
    std::copy_if(known.begin(), known.end(), std::back_inserter(found),
                 [&](const auto& take) { return take.file == name || take.file == name + ".mid"; });
    return found;
}

[[noreturn]] void refuse_several(const std::string& name, const std::vector<KnownTake>& found) {
    std::vector<std::string> paths;
    for (const auto& take : found) paths.push_back(files::name_of(path_of(take)));
    throw text::BadInput(fmt::format("forget {}", text::printable(name)),
                         "several takes are called so", "say which: " + text::listed(paths, "or"));
}

[[noreturn]] void refuse_unknown_take(const std::string& name) {
    const auto folder = takes_folder();
    throw text::BadInput(fmt::format("forget {}", text::printable(name)), "there is no such take",
                         folder ? "yours lie in " + files::name_of(*folder) : "");
}

/// A file that is no take of the history's: among the player's own it can be forgotten all the
/// same.
bool add_own_file(const std::string& name, Forgettable& what) {
    const auto folder = takes_folder();
    for (const auto& file : {from_the_root(name), folder.value_or("") / name}) {
        if (!is_there(file) || !is_own(file)) continue;
        add_file(file, what);
        return true;
    }
    return false;
}

/// Takes of the player that lie in the folder and never came into the history.
void add_unknown_files(const std::string& player, const std::vector<KnownTake>& known,
                       Forgettable& what) {
    for (const auto& file : own_take_files()) {
        const bool is_known = std::any_of(known.begin(), known.end(), [&](const auto& take) {
            return take.file == file.filename() && is_own(path_of(take));
        });
        if (is_known) continue;
        try {
            const auto take = read_take_file(file.string(), practice::TakeTexts::read).take;
            if (take.info && take.info->player == player) add_file(file, what);
        } catch (const text::BadInput&) {
            continue;  // nobody knows whose it is
        }
    }
}

[[noreturn]] void refuse_player(const std::string& player, const history::History* history) {
    std::vector<std::string> names;
    if (history != nullptr) {
        for (const auto& one : history->players()) {
            if (!one.name.empty()) names.push_back(one.name);
        }
    }
    throw text::BadInput(fmt::format("there is nothing of {}{}", text::quoted(player),
                                     text::did_you_mean(player, names)));
}

}  // namespace

Forgettable takes_named(const std::vector<std::string>& names) {
    const auto history = open_history();
    const auto known = history ? history->takes() : std::vector<KnownTake>{};
    Forgettable what;
    for (const auto& name : names) {
        const auto found = kept_as(name, known);
        if (found.size() > 1) refuse_several(name, found);
        for (const auto& take : found) add_take(take, what);
        const bool has_file = add_own_file(name, what);
        if (found.empty() && !has_file) refuse_unknown_take(name);
    }
    return what;
}

Forgettable all_of_player(const std::string& player) {
    const auto history = open_history();
    const auto known = history ? history->takes() : std::vector<KnownTake>{};
    Forgettable what;
    for (const auto& take : known) {
        if (take.player == player) add_take(take, what);
    }
    if (history) what.homework = history->homework(player).size();
    add_unknown_files(player, known, what);
    if (what.takes.empty() && what.files.empty() && what.homework == 0) {
        refuse_player(player, history ? &*history : nullptr);
    }
    return what;
}

std::vector<std::string> lines_of(const Forgettable& what) {
    constexpr int columns = 76;
    std::vector<std::string> lines;
    for (const auto& take : what.takes) {
        lines.push_back(report::cut_to_columns(
            fmt::format("{}  {}, {}", text::printable(take.file, std::string::npos),
                        report::spoken_date(take.made),
                        text::printable(take.title, std::string::npos)),
            columns));
    }
    for (const auto& file : what.files) {
        const bool is_shown =
            std::any_of(what.takes.begin(), what.takes.end(),
                        [&](const auto& take) { return take.file == file.filename(); });
        if (is_shown) continue;
        lines.push_back(files::name_of(file.filename()) + "  not in the history");
    }
    return lines;
}

}  // namespace compline::app
