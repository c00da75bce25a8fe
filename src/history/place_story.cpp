#include "place_rows.hpp"

#include <algorithm>

namespace compline::history {

namespace {

constexpr std::size_t evenings_together = 3;
constexpr double clearly_better = 0.05;

/// Of an evening and the two before; as if one more had been right and one wrong (the rule of
/// succession), so that a lucky one of one is no summit.
double level_at(const std::vector<EveningSums>& evenings, std::size_t at) {
    ChangeSums sums;
    const auto first = at + 1 - std::min(at + 1, evenings_together);
    for (auto i = first; i <= at; ++i) add(sums, evenings[i].sums);
    return (sums.both + 1.0) / (sums.of + 2.0);
}

int evenings_stuck(const std::vector<EveningSums>& evenings) {
    double best = -1;
    int stuck = 0;
    for (std::size_t i = 0; i < evenings.size(); ++i) {
        const double level = level_at(evenings, i);
        stuck = level >= best + clearly_better ? 0 : stuck + 1;
        best = std::max(best, level);
    }
    return stuck;
}

void add_faults(PlaceStory& story, const PlaceEvening& row) {
    story.late += row.late;
    story.early += row.early;
    story.missed += row.missed;
    story.waits += row.waits;
    story.wrong += row.wrong;
    story.incomplete += row.incomplete;
    story.late_ms += row.late_ms;
}

}  // namespace

PlaceStory place_story(const PlaceEvenings& rows, const std::string& lately) {
    const auto& last = *rows.back();
    PlaceStory story;
    story.bar = last.bar;
    story.beat = last.beat;
    story.section = last.section;
    story.from = last.from;
    story.to = last.to;
    story.evenings = evenings_of(rows);
    story.sums = sums_of(rows);
    story.lately = sums_of(rows, lately);
    for (const auto* row : rows) add_faults(story, *row);
    if (story.late > 0) story.late_ms /= story.late;
    const auto evenings = by_evening(rows);
    story.trend = trend_of(evenings);
    story.stuck_for = evenings_stuck(evenings);
    story.last = last.date;
    return story;
}

std::vector<PlaceStory> places_of(const TuneHistory& tune, const std::string& since) {
    const auto lately = lately_from(tune);
    std::vector<PlaceStory> stories;
    for (const auto& rows : rows_by_place(tune, since))
        stories.push_back(place_story(rows, lately));
    return stories;
}

}  // namespace compline::history
