#include "problems.hpp"

#include "change_words.hpp"
#include "placing.hpp"

#include <compline/report/columns.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <string_view>

namespace compline::report {

namespace {

/// Habits and places that are shown: there is little to be worked on in one evening.
constexpr std::size_t most_of_a_kind = 4;
/// However little room there is.
constexpr std::size_t least_room = 6;

using FaultTexts = std::vector<std::string>;

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
    /// `room`: lines of a terminal, with that of what is left.
    Listed(const FaultLines& faults, std::size_t room) : room_(room - 1) {
        const Kind kinds[] = {{"Elsewhere in the form", &faults.astray},
                              {"Habits", &faults.habits},
                              {"Places, over all times through", &faults.places},
                              {"Besides", &faults.singles}};
        const auto with_lines = std::count_if(std::begin(kinds), std::end(kinds),
                                              [](const Kind& k) { return !k.lines->empty(); });
        for (const auto& kind : kinds) add(kind, with_lines > 1);
    }
    [[nodiscard]] std::string text() const {
        if (left_ == 0) return text_;
        return text_ + fmt::format("  and {} more (score --all lists them)\n", left_);
    }

  private:
    struct Kind {
        const char* heading;
        const FaultTexts* lines;
    };

    void add(const Kind& kind, bool with_heading) {
        std::size_t shown = 0;
        const bool others = kind.heading != std::string_view("Besides");
        for (const auto& line : *kind.lines) {
            const std::size_t tall = columns_of(line) + 2 > terminal_columns ? 2 : 1;
            const std::size_t heading = shown == 0 && with_heading ? 1 : 0;
            if ((others && shown == most_of_a_kind) || taken_ + tall + heading > room_) break;
            if (heading > 0) text_ += std::string(kind.heading) + "\n";
            text_ += "  " + line + "\n";
            taken_ += tall + heading;
            ++shown;
        }
        left_ += kind.lines->size() - shown;
    }

    std::size_t room_;
    std::size_t taken_ = 0;
    std::size_t left_ = 0;
    std::string text_;
};

std::string all_text(const practice::Report& report) {
    std::string text = "\nAll, in order\n";
    for (const auto& line : all_faults(report)) text += "  " + line + "\n";
    return text;
}

}  // namespace

std::string remarks_on_all(const practice::Report& report) {
    return placing_text(report) + outside_text(report.assessment);
}

std::string problems_text(const practice::Report& report, const FaultLines& faults, Listing listing,
                          std::size_t room) {
    const auto& assessment = report.assessment;
    if (heard_nothing(assessment)) return "";
    const auto before = remarks_on_all(report);
    const auto taken = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
    const auto left = std::max(least_room, room - std::min(room, taken));
    const auto text = before + Listed(faults, left).text();
    const bool all = listing == Listing::all && !faults.empty();
    return (text.empty() ? "" : "\n" + text) + (all ? all_text(report) : "");
}

}  // namespace compline::report
