#include "placing.hpp"

#include "change_words.hpp"
#include "words.hpp"

#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

namespace compline::report {

namespace {

using assess::Change;
using assess::Verdict;
using Changes = std::vector<Change>;

/// Changes let in the same distance after their own beat.
struct Placing {
    double beats_in = 0;
    int count = 0;
    double sum_ms = 0;
    std::set<time::Ticks> beats;  ///< of the bar
};

std::optional<Placing> usual_placing(const Changes& changes, const roadmap::RoadMap& map) {
    std::map<double, Placing> placings;
    for (const Change& change : changes) {
        if (change.uncertain || change.verdict != Verdict::placed || !change.beats_in) continue;
        auto& placing = placings[*change.beats_in];
        placing.beats_in = *change.beats_in;
        ++placing.count;
        placing.sum_ms += change.lateness ? change.lateness->milliseconds() : 0;
        placing.beats.insert(landed_on(change, map).in_bar);
    }
    const auto most = std::max_element(
        placings.begin(), placings.end(),
        [](const auto& a, const auto& b) { return a.second.count < b.second.count; });
    if (most == placings.end()) return std::nullopt;
    return most->second;
}

std::string beat_count_words(double beats) {
    if (beats == 0.5) return "half a beat";
    if (beats == 1) return "a beat";
    if (beats == 1.5) return "a beat and a half";
    return plain(beats) + " beats";
}

std::string rhythm_of(const Placing& placing) {
    std::vector<std::string> names;
    for (const auto beat : placing.beats) names.push_back(time::beat_name(beat));
    return fmt::format("{}", fmt::join(names, " "));
}

}  // namespace

std::string placing_text(const practice::Report& report) {
    const auto& changes = report.assessment.changes;
    const auto placing = usual_placing(changes, report.map);
    const int struck = count_certain(changes, was_struck);
    // One change is no habit.
    if (!placing || placing->count < 2 || placing->count * 3 < struck) return "";
    const auto of = struck == report.assessment.totals.changes
                        ? fmt::format("{} changes", struck)
                        : fmt::format("the {} changes struck", struck);
    const double ms = std::round(placing->sum_ms / placing->count);
    const bool on_beats = *placing->beats.begin() % time::quarter_note == time::Ticks(0);
    const char* point = on_beats ? "beat" : "off-beat";
    const auto where = ms == 0 ? fmt::format("on that {}", point)
                               : fmt::format("{:.0f} ms {} that {}", std::fabs(ms),
                                             ms > 0 ? "behind" : "ahead of", point);
    return fmt::format(
        "{} of {} came in {} after their own, {}.\n"
        "If you mean to: --rhythm \"{}\"\n",
        placing->count, of, beat_count_words(placing->beats_in), where, rhythm_of(*placing));
}

}  // namespace compline::report
