#include "accidentals.hpp"
#include "hand_played.hpp"
#include "judging.hpp"
#include "page_file.hpp"
#include "take_folder.hpp"
#include "take_history.hpp"

#include <compline/practice/evening_date.hpp>
#include <compline/report/report.hpp>
#include <compline/report/take_page.hpp>
#include <compline/report/takes.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace compline::app {

namespace {

struct ScoreOptions {
    std::vector<std::string> takes;
    JudgingOptions judging;
    HandOptions hand;
    bool all = false;
    bool json = false;
    PageFile page;
    bool no_history = false;
    std::optional<std::string> player;

    [[nodiscard]] report::Listing listing() const {
        return all ? report::Listing::all : report::Listing::one_screen;
    }
};

/// What goes into the history by and by, when all has been judged.
class TakesForHistory {
  public:
    explicit TakesForHistory(const ScoreOptions& options) : options_(options) {}

    void add(const std::string& path, const practice::Report& report) {
        if (options_.no_history || path == standard_input) return;
        auto rows = rows_of_scored(path, report, options_.judging, options_.player);
        if (rows) rows_.push_back(*std::move(rows));
    }
    void keep() const { keep_scored_in_history(rows_); }

  private:
    const ScoreOptions& options_;
    std::vector<history::JudgedTake> rows_;
};

void score_one(const ScoreOptions& options) {
    const auto& path = options.takes.front();
    auto report = Judging(options.judging).judge(path);
    if (options.hand.asked()) report.hand = hand_played(report, options.hand);
    TakesForHistory history(options);
    history.add(path, report);
    history.keep();
    if (options.json) {
        fmt::print("{}", report::to_json(report));
    } else {
        print_words(report::to_text(report, options.listing()));
    }
    if (!options.page.is_asked()) return;
    const bool left = options.judging.guitar.left_handed;
    const auto shown = voicings_shown(report, options.hand);
    save(options.page, report::take_html(report, left ? report::Hand::left : report::Hand::right,
                                         shown ? &*shown : nullptr));
}

/// Several takes while they are judged: what is wrong with one is said, and the others are judged
/// all the same.
class TakesToScore {
  public:
    explicit TakesToScore(const ScoreOptions& options)
        : judging_(options.judging), history_(options) {}

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

    void keep() const { history_.keep(); }
    [[nodiscard]] Status status() const { return status_; }
    [[nodiscard]] const std::vector<practice::Report>& reports() const { return reports_; }

  private:
    void add_take(const std::string& path) {
        attempt(status_, [&] {
            reports_.push_back(judging_.judge(path));
            history_.add(path, reports_.back());
        });
    }

    Judging judging_;
    TakesForHistory history_;
    Status status_ = Status::done;
    std::vector<practice::Report> reports_;
};

Status score_several(const ScoreOptions& options) {
    TakesToScore all(options);
    for (const auto& path : options.takes) all.add(path);
    all.keep();
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
    auto read = options.takes;
    read.push_back(options.judging.chart);
    refuse_taken(options.page, read);
    if (options.takes.size() > 1 || is_folder(options.takes.front())) {
        if (options.page.is_asked()) throw BadInput("--html makes a page of one take: give one");
        if (options.hand.asked()) throw BadInput("--hand is for one take: score each by itself");
        return score_several(options);
    }
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
        {"--player", "NAME", "Whose takes these are in your history.\n", "as each take says",
         read_by([options](const auto& text) { options->player = text; }, Echo::value)},
        no_history_option(options->no_history),
        accidentals_option()};
    const auto page =
        joined({options_of(options->page), {left_handed_option(options->judging.guitar)}});
    ProgramCommand command{
        "score", "Judge recorded takes against their chart",
        joined({takes, played_options(options->judging), how_options(options->judging),
                options_of(options->hand), shown, page}),
        [options] { return score(*options); }};
    command.settled = joined({settled(options->judging), settled(options->hand)});
    return command;
}

}  // namespace compline::app
