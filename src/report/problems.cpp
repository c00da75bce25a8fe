#include "problems.hpp"

#include "change_words.hpp"
#include "placing.hpp"
#include "words.hpp"

#include <compline/report/report.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace compline::report {

namespace {

using assess::Astray;
using assess::Change;
using assess::Verdict;
using Changes = std::vector<Change>;

/// Problems shown; the rest are counted. Keeps a bad evening on one screen.
constexpr std::size_t most_problems = 13;

/// From so many changes on, being astray is one fault.
constexpr int long_stretch = 4;

// ---- Places: what happens there most times is said once.

bool same_place(const Change& a, const Change& b) {
    return a.bar == b.bar && a.beat == b.beat && move_of(a) == move_of(b);
}

template <typename Wanted>
HowOften how_often(const Change& at, const Changes& changes, Wanted wanted) {
    return {count_certain(changes, [&](const Change& c) { return same_place(at, c) && wanted(c); }),
            count_certain(changes, [&](const Change& c) { return same_place(at, c); })};
}

std::string habit_line(const Change& change, const std::string& words) {
    return fmt::format("{}  {}  {}{}", place_of(change, false), move_of(change), words,
                       remark_on(change));
}

std::string wait_line(const Change& change, const Changes& changes, const roadmap::RoadMap& map) {
    const auto often = how_often(
        change, changes, [&](const Change& c) { return c.wait && c.beats_in == change.beats_in; });
    return habit_line(change, wait_words(change, map, often));
}

std::string left_out_line(const Change& change, const Changes& changes) {
    const auto often = how_often(change, changes, [](const Change& c) { return c.left_out; });
    return habit_line(change, "left out" + often.in_words(" "));
}

// ---- Stretches in which the player was elsewhere in the form.

bool holds(const Astray& stretch, const Change& change) {
    // A stretch that ends in a bar before the one it began in went round the form.
    const int last_time = stretch.time_through + (stretch.to_bar < stretch.from_bar ? 1 : 0);
    const auto at = std::pair(change.time_through, change.bar);
    return at >= std::pair(stretch.time_through, stretch.from_bar) &&
           at <= std::pair(last_time, stretch.to_bar);
}

/// "a bar ahead of the chart", "2 beats behind the chart".
std::string elsewhere_words(double bars, time::Meter meter) {
    const double far = std::fabs(bars);
    const bool whole = far == std::floor(far);
    const double number = whole ? far : std::round(far * meter.beats());
    const char* unit = whole ? "bar" : "beat";
    const auto how_far =
        number == 1 ? fmt::format("a {}", unit) : fmt::format("{} {}s", plain(number), unit);
    return how_far + (bars > 0 ? " ahead of the chart" : " behind the chart");
}

std::string stretch_line(const Astray& stretch, bool with_time_through, const chart::Form& form) {
    const auto time = with_time_through ? ordinal(stretch.time_through) + " time  " : std::string();
    const auto bars = stretch.from_bar == stretch.to_bar
                          ? fmt::format("bar {}", stretch.from_bar)
                          : fmt::format("bars {} to {}", stretch.from_bar, stretch.to_bar);
    return fmt::format("{}{}  {}", time, bars,
                       elsewhere_words(stretch.bars, form.bar(stretch.from_bar).meter));
}

// ---- All of them.

/// Lines in order, what is the same for several changes where it comes first.
class ProblemLines {
  public:
    explicit ProblemLines(const practice::Report& report)
        : assessment_(report.assessment),
          map_(report.map),
          with_time_through_(report.map.times_through() != 1) {
        for (const Change& change : assessment_.changes) add(change);
    }
    [[nodiscard]] const std::vector<std::string>& lines() const { return lines_; }

  private:
    void add(const Change& change) {
        if (const auto shared = shared_line(change); !shared.empty()) {
            if (said_.insert(shared).second) lines_.push_back(shared);
            add_all(tone_problems_of(change, with_time_through_));
        } else {
            add_all(problems_of(change, with_time_through_, map_));
        }
    }

    void add_all(const std::vector<std::string>& lines) {
        lines_.insert(lines_.end(), lines.begin(), lines.end());
    }

    [[nodiscard]] std::string shared_line(const Change& change) const {
        if (change.uncertain) return "";
        if (change.wait) return wait_line(change, assessment_.changes, map_);
        if (change.left_out) return left_out_line(change, assessment_.changes);
        if (change.verdict != Verdict::astray) return "";
        for (const Astray& stretch : assessment_.astray) {
            if (stretch.changes < long_stretch || !holds(stretch, change)) continue;
            return stretch_line(stretch, with_time_through_, map_.form());
        }
        return "";
    }

    const assess::Assessment& assessment_;
    const roadmap::RoadMap& map_;
    bool with_time_through_;
    std::set<std::string> said_;
    std::vector<std::string> lines_;
};

std::string listed(const std::vector<std::string>& lines) {
    std::string text;
    for (std::size_t i = 0; i < std::min(lines.size(), most_problems); ++i) {
        text += "  " + lines[i] + "\n";
    }
    if (lines.size() > most_problems) {
        text += fmt::format("  and {} more (--json lists all)\n", lines.size() - most_problems);
    }
    return text;
}

// ---- What cannot be known.

bool is_silent(const assess::Assessment& assessment) {
    return assessment.strums.empty() && assessment.time.all.count == 0;
}

std::string none_struck_text(const assess::Assessment& assessment) {
    const int due = assessment.totals.changes;
    const auto none = due == 1 ? std::string("The one change was not struck")
                               : fmt::format("None of the {} changes was struck", due);
    if (is_silent(assessment)) {
        return none + ". Is the MIDI pickup connected, and on the right channel?\n";
    }
    return none + ", though you played. Was it this chart, and these bars?\n";
}

/// Other chords struck where the right one had landed, when that is no slip here and there.
std::string outside_text(const assess::Assessment& assessment) {
    constexpr int fewest = 4;
    constexpr int one_in = 10;
    int outside = 0;
    int all = 0;
    std::set<int> bars;
    for (const Change& change : assessment.changes) {
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

/// That there is nothing to mend needs evidence: half of the changes struck.
std::string nothing_text(const assess::Assessment& assessment) {
    const int due = assessment.totals.changes;
    const int struck = count_certain(assessment.changes, was_struck);
    if (due == 0) return "";
    if (struck == 0) return none_struck_text(assessment);
    const int laid_out = count_certain(assessment.changes, [](const Change& change) {
        return change.verdict == Verdict::laid_out;
    });
    if (struck * 2 >= due && laid_out == 0) return "Nothing to mend.\n";
    if (struck * 2 >= due) {
        return fmt::format("Nothing to mend in the {} of {} changes that you played.\n",
                           due - laid_out, due);
    }
    return fmt::format("Only {} of {} changes {} struck: too little to say what to mend.\n", struck,
                       due, struck == 1 ? "was" : "were");
}

}  // namespace

std::string problems_text(const practice::Report& report) {
    const auto& assessment = report.assessment;
    const auto lines = ProblemLines(report).lines();
    const auto placing = placing_text(report) + outside_text(assessment);
    std::string text;
    if (is_silent(assessment) || (lines.empty() && placing.empty())) {
        text = nothing_text(assessment);
    } else {
        text = placing + listed(lines);
        if (count_certain(assessment.changes, was_struck) == 0)
            text = nothing_text(assessment) + text;
    }
    return text.empty() ? "" : "\n" + text;
}

}  // namespace compline::report
