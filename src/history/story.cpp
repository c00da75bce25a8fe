#include "../assess/median.hpp"
#include "evening_shares.hpp"
#include "place_rows.hpp"
#include "transitions.hpp"

#include <compline/history/advice.hpp>
#include <compline/history/story.hpp>

#include <algorithm>
#include <span>

namespace compline::history {

namespace {

constexpr int four_weeks = 28;
constexpr int week = 7;
constexpr std::size_t third = 3;

using Evenings = std::vector<TuneEvening>;

Evenings evenings_since(const TuneHistory& tune, const std::string& since) {
    Evenings evenings;
    for (const auto& evening : tune.evenings) {
        if (evening.date >= since && days_of(evening.date)) evenings.push_back(evening);
    }
    return evenings;
}

std::size_t a_third_of(std::size_t count) { return std::max<std::size_t>(count / third, 1); }

void add_totals(TuneStory& story, const Evenings& evenings) {
    story.evenings = static_cast<int>(evenings.size());
    if (evenings.empty()) return;
    story.first_played = evenings.front().date;
    story.last_played = evenings.back().date;
    for (const auto& evening : evenings) {
        story.seconds += evening.seconds;
        story.takes += evening.takes;
    }
    const auto newest = evenings.size() - a_third_of(evenings.size());
    for (auto i = newest; i < evenings.size(); ++i) add(story.lately, evenings[i].sums);
}

using Shares = std::span<const EveningShare>;

/// That week of evenings which ended so long before the last one; none where none was.
Shares week_before(Shares evenings, int days) {
    const auto is_later = [](int day, const EveningShare& evening) { return day < evening.day; };
    const auto end =
        std::upper_bound(evenings.begin(), evenings.end(), evenings.back().day - days, is_later);
    if (end == evenings.begin()) return {};
    const auto begin =
        std::upper_bound(evenings.begin(), end, std::prev(end)->day - week, is_later);
    return evenings.subspan(static_cast<std::size_t>(begin - evenings.begin()),
                            static_cast<std::size_t>(end - begin));
}

double share_of(Shares evenings) {
    double in_time = 0;
    int of = 0;
    for (const auto& evening : evenings) {
        in_time += evening.share * evening.of;
        of += evening.of;
    }
    return in_time / of;
}

double usual_tempo(Shares evenings) {
    std::vector<double> tempi;
    for (const auto& evening : evenings) {
        if (evening.bpm > 0) tempi.push_back(evening.bpm);
    }
    return tempi.empty() ? 0 : assess::median(std::move(tempi));
}

Trend tempo_trend(Shares evenings) {
    std::vector<TrendPoint> points;
    for (const auto& evening : evenings) {
        if (evening.bpm > 0) points.push_back({static_cast<double>(evening.day), evening.bpm});
    }
    return trend_of(points);
}

std::optional<ThenAndNow> then_and_now(Shares shares) {
    if (shares.size() < 2) return std::nullopt;
    auto then = week_before(shares, four_weeks);
    auto now = week_before(shares, 0);
    if (then.empty()) {
        then = shares.first(a_third_of(shares.size()));
        now = shares.last(a_third_of(shares.size()));
    }
    ThenAndNow both;
    both.then_from = then.front().date;
    both.then_to = then.back().date;
    both.now_from = now.front().date;
    both.now_to = now.back().date;
    both.then_share = share_of(then);
    both.now_share = share_of(now);
    both.then_bpm = usual_tempo(then);
    both.now_bpm = usual_tempo(now);
    return both;
}

std::optional<CleanTempo> clean_tempo(const Evenings& evenings) {
    std::optional<CleanTempo> clean;
    for (const auto& evening : evenings) {
        if (!evening.clean_bpm || (clean && *evening.clean_bpm <= clean->bpm)) continue;
        clean = CleanTempo{*evening.clean_bpm, evening.date, std::nullopt};
    }
    if (!clean) return clean;
    const int last = days_of(evenings.back().date).value_or(0);
    for (const auto& evening : evenings) {
        const bool is_before = days_of(evening.date).value_or(last) <= last - four_weeks;
        if (is_before && evening.clean_bpm)
            clean->before = std::max(clean->before.value_or(0), *evening.clean_bpm);
    }
    return clean;
}

std::vector<PlaceStory> weak_places(const TuneHistory& tune, const std::string& since,
                                    const std::string& lately) {
    const auto places = rows_by_place(tune, std::max(since, lately));
    std::vector<PlaceStory> stories;
    for (const auto i : weakest_first(places)) {
        if (stories.size() == most_told) break;
        stories.push_back(place_story(rows_of(tune, *places[i].front(), since), lately));
    }
    return stories;
}

}  // namespace

TuneStory story_of(const TuneHistory& tune, const std::string& since) {
    TuneStory story;
    story.tune = tune.tune;
    const auto evenings = evenings_since(tune, since);
    add_totals(story, evenings);
    const auto shares = evening_shares(tune, since);
    story.trend = trend_of(points_of(shares));
    story.tempo_trend = tempo_trend(shares);
    story.by_whole_tunes = is_told_by_whole_tunes(tune, since);
    story.then_and_now = then_and_now(shares);
    story.clean = clean_tempo(evenings);
    for (const auto& tempo : tune.tempi) {
        if (tempo.last >= since) story.tempi.push_back(tempo);
    }
    const auto lately = lately_from(tune);
    story.weakest = weak_places(tune, since, lately);
    story.transitions = weak_transitions(tune, since, lately);
    const auto spacing = spacing_of(tune);
    if (!tune.tune.drill) story.due = spacing.due();
    story.spacing_days = spacing.days();
    return story;
}

}  // namespace compline::history
