#include "rebuild_history.hpp"

#include "history_file.hpp"
#include "progress_line.hpp"
#include "session_files.hpp"
#include "take_folder.hpp"
#include "take_history.hpp"

#include <compline/assess/rules_version.hpp>
#include <compline/files/file_io.hpp>
#include <compline/history/history.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <system_error>
#include <utility>

namespace compline::app {

namespace fs = std::filesystem;
using history::History;
using history::JudgedTake;

namespace {

/// In one transaction: who waits for the right to write does not wait for all.
constexpr std::size_t takes_at_once = 50;

/// A name that is free: "history.db.damaged", "history-2.db.damaged" ...
fs::path free_name(const fs::path& file) {
    const fs::path wanted = file.string() + ".damaged";
    std::error_code unknown;
    for (int run = 1;; ++run) {
        const auto name = numbered(wanted, run);
        if (!fs::exists(name, unknown)) return name;
    }
}

/// With what SQLite has beside it: of a log without its database nothing can be read.
void set_aside(const fs::path& file) {
    const auto name = free_name(file);
    for (const auto* beside : {"", "-wal", "-shm"}) {
        std::error_code absent;  // these are there only while it is open, or after a crash
        fs::rename(file.string() + beside, name.string() + beside, absent);
        if (absent && *beside == '\0') {
            throw history::HistoryError(fmt::format("{}: it is damaged and cannot be set aside: {}",
                                                    files::name_of(file), absent.message()));
        }
    }
    say(fmt::format("The old one is damaged: it is now {}", files::name_of(name)));
}

History whole_history(const fs::path& file) {
    std::error_code unknown;
    if (!fs::exists(file, unknown)) return open_or_make_history();
    try {
        auto history = open_or_make_history();
        if (history.check().empty()) return history;
    } catch (const history::DamagedHistory& error) {
        say(error.what());
    }
    set_aside(file);
    return open_or_make_history();
}

/// Files of takes: those in the folder, and those that rows speak of; in order of their names,
/// which are dates.
std::vector<fs::path> take_files(const std::vector<history::KnownTake>& known) {
    std::set<std::pair<std::string, std::string>> files;  // name, folder
    for (const auto& file : own_take_files()) {
        files.emplace(file.filename().string(), file.parent_path().string());
    }
    std::error_code unknown;
    for (const auto& take : known) {
        if (!take.of_ours || !fs::exists(fs::path(take.folder) / take.file, unknown)) continue;
        files.emplace(take.file, take.folder);
    }
    std::vector<fs::path> all;
    for (const auto& [name, in] : files) all.push_back(fs::path(in) / name);
    return all;
}

class Rebuild {
  public:
    explicit Rebuild(History& history) : history_(history), known_(history.takes()) {
        for (const auto& take : known_) players_[take.fingerprint] = take.player;
    }

    Status run() {
        const auto files = take_files(known_);
        {
            ProgressLine progress("judging: ", ProgressLine::after_a_second);
            for (std::size_t i = 0; i < files.size(); ++i) {
                take_in(files[i]);
                progress.show(static_cast<double>(i + 1) / static_cast<double>(files.size()));
            }
            write();
        }
        say_how_it_went();
        return status_;
    }

  private:
    void take_in(const fs::path& file) {
        attempt(status_, [&] {
            // A take that was scored for a pupil stays the pupil's.
            const auto whose = players_.find(fingerprint_of(file));
            auto rows =
                whose == players_.end() ? rows_of_take(file) : rows_of_take(file, whose->second);
            if (!rows) {
                ++without_;
                return;
            }
            entered_.insert(rows->take.fingerprint);
            waiting_.push_back(*std::move(rows));
            if (waiting_.size() >= takes_at_once) write();
        });
    }

    void write() {
        if (!waiting_.empty()) history_.enter(waiting_);
        waiting_.clear();
    }

    void say_how_it_went() const {
        fmt::print("{} in the history, judged anew.\n", takes_words(entered_.size()));
        std::size_t stayed = 0;
        std::size_t older = 0;
        for (const auto& take : known_) {
            if (entered_.count(take.fingerprint) > 0) continue;
            ++stayed;
            if (take.rules < assess::rules_version) ++older;
        }
        if (stayed > 0) {
            fmt::print("{} as they were: their files are gone, or came from elsewhere.\n",
                       takes_words(stayed));
        }
        if (older > 0) fmt::print("Of these {} were judged by older rules.\n", older);
        if (without_ > 0) {
            fmt::print("{} left out: nothing was struck, or there is no date or chart.\n",
                       takes_words(static_cast<std::size_t>(without_)));
        }
    }

    static std::string takes_words(std::size_t takes) {
        return fmt::format("{} {}", takes, takes == 1 ? "take" : "takes");
    }

    History& history_;
    std::vector<history::KnownTake> known_;
    std::map<std::string, std::string> players_;
    std::set<std::string> entered_;
    std::vector<JudgedTake> waiting_;
    int without_ = 0;
    Status status_ = Status::done;
};

}  // namespace

Status rebuild_history() {
    const auto file = history_file();
    if (!file) throw BadInput("there is no home folder in which takes could be");
    auto history = whole_history(*file);
    return Rebuild(history).run();
}

std::size_t takes_without_history() {
    const auto file = history_file();
    std::error_code unknown;
    if (!file || fs::exists(*file, unknown)) return 0;
    return take_files({}).size();
}

Status check_history() {
    const auto history = open_history();
    if (!history) {
        fmt::print("There is no history yet.\n");
        return Status::done;
    }
    const auto wrong = history->check();
    if (wrong.empty()) {
        fmt::print("The history is whole: {} in it.\n", history->takes().size());
        return Status::done;
    }
    for (const auto& words : wrong) say(words);
    say("It is damaged: compline history --rebuild makes it anew from your takes.");
    return Status::could_not;
}

}  // namespace compline::app
