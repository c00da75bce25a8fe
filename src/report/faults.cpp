#include "faults.hpp"

#include "change_words.hpp"
#include "habit_lines.hpp"
#include "words.hpp"

#include <compline/report/report.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace compline::report {

namespace {

using assess::Astray;
using assess::Change;
using assess::Tones;
using assess::Verdict;
using Changes = std::vector<Change>;

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
    return fmt::format("{}{}  {}", time, bars_of(stretch),
                       elsewhere_words(stretch.bars, form.bar(stretch.from_bar).meter));
}

// ---- Faults one by one, and those of one place together.

/// One thing that is wrong with one change. What is wrong in the same way at the same place has the
/// same key.
struct Fault {
    std::size_t change = 0;
    std::string line;  ///< by itself
    std::string key;
    double cost = 0;
    bool of_time = false;
};

class FaultFinder {
  public:
    explicit FaultFinder(const practice::Report& report)
        : report_(report),
          changes_(report.assessment.changes),
          with_time_through_(report.map.times_through() != 1),
          time_is_said_(changes_.size(), false),
          tones_are_said_(changes_.size(), false) {
        for (const auto& change : changes_) {
            places_.push_back(place_of(change, false) + "  " + move_of(change));
            if (!change.uncertain) ++times_played_[places_.back()];
        }
    }

    [[nodiscard]] FaultLines lines() {
        add_astray();
        add_habits();
        group(faults());
        return std::move(lines_);
    }

    [[nodiscard]] std::vector<Fault> faults() const {
        std::vector<Fault> all;
        for (std::size_t i = 0; i < changes_.size(); ++i) {
            if (!time_is_said_[i]) add_time(i, all);
            if (!tones_are_said_[i]) add_tones(i, all);
        }
        return all;
    }

  private:
    void add_astray() {
        for (const auto& stretch : report_.assessment.astray) {
            if (stretch.changes < long_stretch) continue;
            lines_.astray.push_back(stretch_line(stretch, with_time_through_, report_.map.form()));
            for (std::size_t i = 0; i < changes_.size(); ++i) {
                const auto& change = changes_[i];
                const bool here = change.verdict == Verdict::astray && !change.uncertain;
                if (here && holds(stretch, change)) time_is_said_[i] = tones_are_said_[i] = true;
            }
        }
    }

    void add_habits() {
        for (const auto& habit : report_.assessment.habits) {
            lines_.habits.push_back(habit_line(habit, report_));
            for (const auto i : habit.changes) {
                time_is_said_[i] = time_is_said_[i] || is_of_time(habit);
                tones_are_said_[i] = tones_are_said_[i] || is_of_tones(habit);
            }
        }
    }

    void add_time(std::size_t i, std::vector<Fault>& all) const {
        const auto& change = changes_[i];
        const auto words = timing_words(change, report_.map);
        if (words.empty()) return;
        const auto what = change.wait       ? wait_words(change, report_.map, {})
                          : change.left_out ? std::string("left out")
                                            : std::string(assess::name_of(change.verdict));
        auto alone = change;
        alone.tones = Tones::none;
        all.push_back({i,
                       fmt::format("{}  {}  {}{}", place_of(change, with_time_through_),
                                   move_of(change), words, remark_on(change)),
                       change.verdict == Verdict::astray || change.uncertain ? "" : what,
                       alone.cost(), true});
    }

    void add_tones(std::size_t i, std::vector<Fault>& all) const {
        const auto& change = changes_[i];
        auto alone = change;
        alone.verdict = Verdict::on_time;
        alone.wait = false;
        const auto place = place_of(change, with_time_through_) + "  ";
        for (const auto& words : tone_words_of(change)) {
            all.push_back({i, place + words + remark_on(change), change.uncertain ? "" : words,
                           alone.cost()});
        }
    }

    /// What comes twice and more at a place is one line; what cannot be put together is by itself.
    void group(const std::vector<Fault>& all) {
        std::map<std::string, std::vector<const Fault*>> alike;
        for (const auto& fault : all) alike[group_of(fault)].push_back(&fault);
        std::vector<std::pair<double, std::string>> places;
        for (const auto& fault : all) {
            const auto& here = alike[group_of(fault)];
            if (here.front() != &fault && !fault.key.empty()) continue;
            if (here.size() < 2 || fault.key.empty()) {
                lines_.singles.push_back(line_of(fault));
                continue;
            }
            double cost = 0;
            for (const auto* one : here) cost += one->cost;
            places.emplace_back(cost, place_line(here));
        }
        std::stable_sort(places.begin(), places.end(),
                         [](const auto& a, const auto& b) { return a.first > b.first; });
        for (auto& [cost, line] : places) lines_.places.push_back(std::move(line));
    }

    [[nodiscard]] std::string group_of(const Fault& fault) const {
        return places_[fault.change] + "\n" + fault.key;
    }

    /// What a habit is marked for on the change itself says how often, also where it came once.
    [[nodiscard]] std::string line_of(const Fault& fault) const {
        const auto& change = changes_[fault.change];
        const bool marked = fault.of_time && (change.wait || change.left_out) && !change.uncertain;
        return marked ? place_line({&fault}) : fault.line;
    }

    [[nodiscard]] std::string place_line(const std::vector<const Fault*>& alike) const {
        const auto& change = changes_[alike.front()->change];
        const int cases = static_cast<int>(alike.size());
        const auto& played = times_played_.find(places_[alike.front()->change]);
        const int of = played == times_played_.end() ? cases : played->second;
        const auto words = [&](const std::string& what) {
            return places_[alike.front()->change] + "  " + what + remark_on(change);
        };
        const auto& key = alike.front()->key;
        if (!alike.front()->of_time) {
            return place_of(change, false) + "  " + key + HowOften{cases, of}.in_words(", ") +
                   remark_on(change);
        }
        if (change.wait) return words(wait_words(change, report_.map, {cases, of}));
        if (change.left_out) return words("left out" + HowOften{cases, of}.in_words(" "));
        return words(late_words(key.c_str(), cases, of, mean_of(alike)));
    }

    [[nodiscard]] std::optional<double> mean_of(const std::vector<const Fault*>& alike) const {
        double sum = 0;
        for (const auto* fault : alike) {
            const auto& late = changes_[fault->change].lateness;
            if (!late) return std::nullopt;
            sum += late->milliseconds();
        }
        return sum / static_cast<double>(alike.size());
    }

    const practice::Report& report_;
    const Changes& changes_;
    bool with_time_through_;
    std::vector<std::string> places_;  ///< of each change, with the move
    std::map<std::string, int> times_played_;
    std::vector<bool> time_is_said_;
    std::vector<bool> tones_are_said_;
    FaultLines lines_;
};

}  // namespace

std::string bars_of(const Astray& stretch) {
    return stretch.from_bar == stretch.to_bar
               ? fmt::format("bar {}", stretch.from_bar)
               : fmt::format("bars {} to {}", stretch.from_bar, stretch.to_bar);
}

FaultLines faults_of(const practice::Report& report) { return FaultFinder(report).lines(); }

std::vector<std::string> all_faults(const practice::Report& report) {
    std::vector<std::string> lines;
    for (auto& fault : FaultFinder(report).faults()) lines.push_back(std::move(fault.line));
    return lines;
}

}  // namespace compline::report
