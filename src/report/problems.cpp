#include "problems.hpp"

#include "change_words.hpp"
#include "placing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace compline::report {

namespace {

/// Lines shown; the rest are counted. Keeps a bad evening on one screen.
constexpr std::size_t most_lines = 13;
/// Of habits and of places: there is little to be worked on in one evening.
constexpr std::size_t most_of_a_kind = 5;

using Lines = std::vector<std::string>;

/// Other chords struck where the right one had landed, when that is no slip here and there.
std::string outside_text(const assess::Assessment& assessment) {
    constexpr int fewest = 4;
    constexpr int one_in = 10;
    int outside = 0;
    int all = 0;
    std::set<int> bars;
    for (const auto& change : assessment.changes) {
        if (change.uncertain) continue;
        outside += change.outside;
        all += change.inside + change.passing + change.outside;
        if (change.outside > 0) bars.insert(change.bar);
    }
    if (outside < fewest || outside * one_in < all) return "";
    constexpr std::size_t most_bars = 8;
    std::string where;
    std::size_t named = 0;
    for (const int bar : bars) {
        if (named++ == most_bars) break;
        where += fmt::format("{}{}", where.empty() ? "" : ", ", bar);
    }
    if (bars.size() > most_bars) where += " ...";
    return fmt::format("{} of {} strums after a landing were another chord, in {} {}\n", outside,
                       all, bars.size() == 1 ? "bar" : "bars", where);
}

/// The kinds of faults, each under its heading; alone none needs one.
class Listed {
  public:
    void add(const char* heading, const Lines& lines, std::size_t most) {
        const auto shown = std::min({lines.size(), most, most_lines - shown_});
        left_ += lines.size() - shown;
        if (shown == 0) return;
        parts_.emplace_back(heading,
                            Lines(lines.begin(), lines.begin() + static_cast<long>(shown)));
        shown_ += shown;
    }
    [[nodiscard]] std::string text() const {
        std::string text;
        for (const auto& [heading, lines] : parts_) {
            if (parts_.size() > 1) text += std::string(heading) + "\n";
            for (const auto& line : lines) text += "  " + line + "\n";
        }
        if (left_ > 0) text += fmt::format("  and {} more (score --all lists them)\n", left_);
        return text;
    }

  private:
    std::vector<std::pair<const char*, Lines>> parts_;
    std::size_t shown_ = 0;
    std::size_t left_ = 0;
};

std::string text_of(const FaultLines& faults) {
    Listed listed;
    listed.add("Elsewhere in the form", faults.astray, most_of_a_kind);
    listed.add("Habits", faults.habits, most_of_a_kind);
    listed.add("Places, over all times through", faults.places, most_of_a_kind);
    listed.add("Besides", faults.singles, most_lines);
    return listed.text();
}

std::string all_text(const practice::Report& report) {
    std::string text = "\nAll, in order\n";
    for (const auto& line : all_faults(report)) text += "  " + line + "\n";
    return text;
}

}  // namespace

std::string problems_text(const practice::Report& report, const FaultLines& faults,
                          Listing listing) {
    const auto& assessment = report.assessment;
    const bool silent = assessment.strums.empty() && assessment.time.all.count == 0;
    if (silent) return "";
    const auto text = placing_text(report) + outside_text(assessment) + text_of(faults);
    const bool all = listing == Listing::all && !faults.empty();
    return (text.empty() ? "" : "\n" + text) + (all ? all_text(report) : "");
}

}  // namespace compline::report
