#include <compline/practice/comparison.hpp>
#include <compline/practice/time_alone.hpp>

#include <cmath>
#include <map>
#include <utility>

namespace compline::practice {

using assess::Change;
using assess::Tones;
using assess::Verdict;

namespace {

constexpr std::array<std::string_view, place_faults> fault_names = {
    "late", "early", "missed", "astray", "wait", "left_out", "wrong", "incomplete"};

/// Less is chance: 20 ms a change, or one wrong grip in five (a judgement, no source).
constexpr double noticeable = 0.1;

struct PlaceInTake {
    const Change* last = nullptr;
    PlaceFigures figures;
    double late_sum = 0;
    double early_sum = 0;
};

using Places = std::map<std::pair<int, time::BeatOfBar>, PlaceInTake>;

void note(const Change& change, PlaceInTake& place) {
    auto& figures = place.figures;
    place.last = &change;
    ++figures.of;
    figures.cost += change.cost();
    const auto note_if = [&](bool so, PlaceFault fault) {
        figures.faults[static_cast<std::size_t>(fault)] += so ? 1 : 0;
    };
    note_if(change.verdict == Verdict::late, PlaceFault::late);
    note_if(change.verdict == Verdict::early, PlaceFault::early);
    note_if(change.verdict == Verdict::missed, PlaceFault::missed);
    note_if(change.verdict == Verdict::astray, PlaceFault::astray);
    note_if(change.wait, PlaceFault::wait);
    note_if(change.left_out, PlaceFault::left_out);
    note_if(change.tones == Tones::wrong, PlaceFault::wrong);
    note_if(change.tones == Tones::incomplete, PlaceFault::incomplete);
    if (change.verdict == Verdict::laid_out && !change.left_out) ++figures.laid_out;
    const double off = change.lateness ? std::fabs(change.lateness->milliseconds()) : 0;
    if (change.verdict == Verdict::late) place.late_sum += off;
    if (change.verdict == Verdict::early) place.early_sum += off;
}

Places places_of(const Report& report) {
    Places places;
    for (const auto& change : report.assessment.changes) {
        if (!change.uncertain && !change.seam) note(change, places[{change.bar, change.beat}]);
    }
    for (auto& [where, place] : places) {
        auto& figures = place.figures;
        const int late = figures.count(PlaceFault::late);
        const int early = figures.count(PlaceFault::early);
        if (late > 0) figures.late_ms = place.late_sum / late;
        if (early > 0) figures.early_ms = place.early_sum / early;
    }
    return places;
}

Comparison compare_alike(const Report& before, const Report& after) {
    const auto first = places_of(before);
    const auto second = places_of(after);
    Comparison comparison;
    for (const auto& [where, then] : second) {
        const auto place = first.find(where);
        if (place == first.end()) continue;
        const auto& change = *then.last;
        comparison.places.push_back({change.bar, change.beat, change.section, change.from,
                                     change.to, place->second.figures, then.figures});
    }
    const auto both = static_cast<int>(comparison.places.size());
    comparison.only_before = static_cast<int>(first.size()) - both;
    comparison.only_after = static_cast<int>(second.size()) - both;
    comparison.right_before = right_changes(before);
    comparison.right_after = right_changes(after);
    comparison.time_alone = !judges_tones(after);
    return comparison;
}

}  // namespace

std::string_view name_of(PlaceFault fault) { return fault_names[static_cast<std::size_t>(fault)]; }

bool ComparedPlace::is_better() const { return gain() >= noticeable; }
bool ComparedPlace::is_worse() const { return gain() <= -noticeable; }

Comparison compare(const Report& before, const Report& after) {
    if (judges_tones(before) == judges_tones(after)) return compare_alike(before, after);
    return compare_alike(by_time_alone(before), by_time_alone(after));
}

}  // namespace compline::practice
