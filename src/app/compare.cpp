#include "compare.hpp"

#include "accidentals.hpp"
#include "take_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/practice/evening_date.hpp>
#include <compline/report/takes.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <utility>

namespace compline::app {

namespace {

/// One of the two that are compared.
class CompareSide {
  public:
    CompareSide(const TuneFinder& finder, const std::string& path)
        : finder_(finder),
          path_(path),
          is_folder_(is_folder(path)),
          found_(is_folder_ ? finder.in_folder(path) : finder.of_take(path)) {}

    [[nodiscard]] std::string name() const { return files::name_of(path_); }
    [[nodiscard]] const std::vector<TuneOfTakes>& tunes() const { return found_.tunes; }
    [[nodiscard]] const TuneOfTakes* tune(const std::string& hash) const {
        const auto same = std::find_if(tunes().begin(), tunes().end(),
                                       [&](const auto& tune) { return tune.hash == hash; });
        return same == tunes().end() ? nullptr : &*same;
    }
    /// Its takes of a tune that it has, in order of when they were made. Throws BadInput.
    [[nodiscard]] std::vector<practice::Report> judged(const std::string& hash) {
        if (!is_folder_) return {finder_.judge(path_)};
        std::vector<practice::Report> reports;
        const auto status = finder_.judge_all(
            *tune(hash), [&](auto report) { reports.push_back(std::move(report)); });
        if (status != Status::done) found_.status = status;
        if (reports.empty()) throw nothing_to_compare(path_, *tune(hash));
        std::stable_sort(reports.begin(), reports.end(), [](const auto& a, const auto& b) {
            return practice::order_in_time(a.made, a.take) <
                   practice::order_in_time(b.made, b.take);
        });
        return reports;
    }
    [[nodiscard]] Status status() const { return found_.status; }

  private:
    const TuneFinder& finder_;
    std::string path_;
    bool is_folder_;
    FoundTunes found_;
};

std::size_t takes_of(const TuneOfTakes& tune, const CompareSide& other) {
    return tune.takes.size() + other.tune(tune.hash)->takes.size();
}

/// What both sides have, the most played first.
std::vector<TuneOfTakes> in_both(const CompareSide& before, const CompareSide& after) {
    std::vector<TuneOfTakes> both;
    for (const auto& tune : before.tunes()) {
        if (after.tune(tune.hash) != nullptr) both.push_back(tune);
    }
    std::stable_sort(both.begin(), both.end(), [&](const auto& a, const auto& b) {
        return takes_of(a, after) > takes_of(b, after);
    });
    return both;
}

BadInput nothing_in_both(const CompareSide& before, const CompareSide& after,
                         const TuneFinder& finder, const CompareOptions& options) {
    const auto& given = finder.given();
    for (const auto* side : {&before, &after}) {
        if (side->tunes().empty()) return {side->name(), "no take in it can be compared", ""};
        if (given && side->tune(given->hash) == nullptr) {
            return {side->name(),
                    "no take in it was played to " + spoken_name(options.judging.chart), ""};
        }
    }
    return BadInput(
        fmt::format("{} and {} carry different charts: say by --chart which one both "
                    "were played to",
                    before.name(), after.name()));
}

Status compare_two(const CompareOptions& options) {
    const TuneFinder finder(options.judging);
    CompareSide before(finder, options.takes[0]);
    CompareSide after(finder, options.takes[1]);
    const auto both = in_both(before, after);
    if (both.empty()) throw nothing_in_both(before, after, finder, options);
    const auto& tune = chosen_tune(both, finder, options);
    const auto first = before.judged(tune.hash);
    const auto second = after.judged(tune.hash);
    const auto comparison = practice::compare(first, second);
    if (options.json) {
        fmt::print("{}", report::to_json(comparison, first, second));
    } else {
        print_words(report::to_text(comparison, first, second, options.listing()));
        print_words(report::in_words(other_tunes(both, tune, options)));
    }
    return before.status() == Status::done ? after.status() : before.status();
}

Status compare(const CompareOptions& options) {
    const auto& takes = options.takes;
    if (takes.size() == 2) return compare_two(options);
    if (takes.size() > 2) {
        throw BadInput(fmt::format(
            "compare takes two takes, or a folder: {} are named. Name the folder that they are in, "
            "to see what became of its takes over time",
            takes.size()));
    }
    if (is_folder(takes.front())) return compare_over_time(options);
    (void)files::load_bytes(takes.front());  // what is not there is not one take
    throw BadInput(files::name_of(takes.front()), "it is one take alone",
                   "name a second one behind it, or a folder of takes");
}

}  // namespace

ProgramCommand compare_command() {
    const auto options = std::make_shared<CompareOptions>();
    const std::vector<Option> takes = {
        needed({"TAKE", "",
                "Two takes, or other Standard MIDI Files, BEFORE and AFTER; of a folder its\n"
                "takes count together. A folder alone: what became of its takes over time",
                "", file_names(&options->takes)})};
    const std::vector<Option> shown = {
        {"--tune", "TITLE", "Of several tunes in a folder this one: its title or a part of it.",
         "the chart's, else the most played", as_typed(&options->tune)},
        {"--all", "", "Every place is listed.", "as many as fit one screen", flag(&options->all)},
        {"--json", "", "The comparison as JSON.", "in words", flag(&options->json)},
        accidentals_option()};
    ProgramCommand command{
        "compare", "What got better from one take to another, or over time, place by place",
        joined({takes, played_options(options->judging), how_options(options->judging), shown}),
        [options] { return compare(*options); }};
    command.hears = [options](const auto& words) { options->words = words; };
    command.settled = settled(options->judging);
    return command;
}

}  // namespace compline::app
