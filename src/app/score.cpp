#include "accidentals.hpp"
#include "judging.hpp"
#include "take_folder.hpp"

#include <compline/practice/evening_date.hpp>
#include <compline/report/report.hpp>
#include <compline/report/takes.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace compline::app {

namespace {

struct ScoreOptions {
    std::vector<std::string> takes;
    JudgingOptions judging;
    bool all = false;
    bool json = false;

    [[nodiscard]] report::Listing listing() const {
        return all ? report::Listing::all : report::Listing::one_screen;
    }
};

void score_one(const ScoreOptions& options) {
    const auto report = Judging(options.judging).judge(options.takes.front());
    if (options.json) {
        fmt::print("{}", report::to_json(report));
    } else {
        print_words(report::to_text(report, options.listing()));
    }
}

/// Several takes while they are judged: what is wrong with one is said, and the others are judged
/// all the same.
class TakesToScore {
  public:
    explicit TakesToScore(const JudgingOptions& options) : judging_(options) {}

    /// A take, or a folder: its takes in order of when they were made.
    void add(const std::string& path) {
        if (!is_folder(path)) return add_take(path);
        const auto first = static_cast<std::ptrdiff_t>(reports_.size());
        attempt(status_, [&] {
            for (const auto& take : takes_in(path)) add_take(take);
        });
        std::stable_sort(reports_.begin() + first, reports_.end(),
                         [](const auto& a, const auto& b) {
                             return practice::order_in_time(a.made, a.take) <
                                    practice::order_in_time(b.made, b.take);
                         });
    }

    [[nodiscard]] Status status() const { return status_; }
    [[nodiscard]] const std::vector<practice::Report>& reports() const { return reports_; }

  private:
    void add_take(const std::string& path) {
        attempt(status_, [&] { reports_.push_back(judging_.judge(path)); });
    }

    Judging judging_;
    Status status_ = Status::done;
    std::vector<practice::Report> reports_;
};

Status score_several(const ScoreOptions& options) {
    TakesToScore all(options.judging);
    for (const auto& path : options.takes) all.add(path);
    const auto& reports = all.reports();
    const auto status = all.status();
    if (reports.empty()) return status;
    const std::span<const practice::Report> takes(reports);
    if (options.json) {
        fmt::print("{}", report::to_json(takes));
    } else {
        print_words(report::to_text(takes, options.listing()));
    }
    return status;
}

Status score(const ScoreOptions& options) {
    if (options.takes.size() > 1 || is_folder(options.takes.front())) return score_several(options);
    score_one(options);
    return Status::done;
}

}  // namespace

ProgramCommand score_command() {
    const auto options = std::make_shared<ScoreOptions>();
    const std::vector<Option> takes = {
        needed({"TAKE", "",
                "What was played: recorded takes, or other Standard MIDI Files, or folders of\n"
                "them; of several a line each, and the report of all together",
                "", file_names(&options->takes)})};
    const std::vector<Option> shown = {
        {"--all", "", "Every fault is listed.", "as many as fit one screen", flag(&options->all)},
        {"--json", "", "The report as JSON.", "in words", flag(&options->json)},
        accidentals_option()};
    ProgramCommand command{
        "score", "Judge recorded takes against their chart",
        joined({takes, played_options(options->judging), how_options(options->judging), shown}),
        [options] { return score(*options); }};
    command.settled = settled(options->judging);
    return command;
}

}  // namespace compline::app
