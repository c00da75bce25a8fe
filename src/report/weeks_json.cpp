#include "json_values.hpp"
#include "weeks_lines.hpp"
#include "weeks_next_words.hpp"

#include <compline/history/trend.hpp>
#include <compline/report/weeks.hpp>

#include <cmath>

namespace compline::report {

namespace {

/// Shares with three decimals; slopes in percent points a week, which have a size that can be read.
double points_a_week(double share_a_day) { return rounded(share_a_day * 700); }

Json minutes(double seconds) { return rounded(seconds / 60); }

Json change_sums_json(const history::ChangeSums& sums) {
    return {{"changes", sums.of},
            {"in_time", sums.in_time},
            {"right", sums.right},
            {"both", sums.both},
            {"cost", rounded(sums.cost)}};
}

Json trend_json(const history::Trend& trend) {
    return {{"is", name_of(trend.course)},
            {"evenings", trend.evenings},
            {"points_a_week", points_a_week(trend.slope)},
            {"least_points_a_week", points_a_week(trend.least)},
            {"most_points_a_week", points_a_week(trend.most)},
            {"first", rounded(trend.first)},
            {"last", rounded(trend.last)}};
}

Json then_and_now_json(const std::optional<history::ThenAndNow>& both) {
    if (!both) return nullptr;
    const auto one = [](const std::string& from, const std::string& to, double share, double bpm) {
        return Json{
            {"from", from}, {"to", to}, {"share_in_time", rounded(share)}, {"bpm", rounded(bpm)}};
    };
    return {{"then", one(both->then_from, both->then_to, both->then_share, both->then_bpm)},
            {"now", one(both->now_from, both->now_to, both->now_share, both->now_bpm)}};
}

Json clean_json(const std::optional<history::CleanTempo>& clean) {
    if (!clean) return nullptr;
    return {{"bpm", rounded(clean->bpm)},
            {"since", clean->since},
            {"four_weeks_earlier_bpm", number(clean->before)}};
}

Json tempo_sums_json(const history::TempoSums& tempo) {
    return {{"bpm", tempo.bpm},
            {"sums", change_sums_json(tempo.sums)},
            {"times_through", tempo.times},
            {"clean", tempo.clean},
            {"last", tempo.last},
            {"whole_tune", change_sums_json(tempo.whole)}};
}

Json transition_json(const history::TransitionStory& one) {
    return {{"from", text_or_null(one.from)},
            {"to", one.to},
            {"bars", one.bars},
            {"evenings", one.evenings},
            {"sums", change_sums_json(one.sums)},
            {"trend", trend_json(one.trend)}};
}

Json place_json(const history::PlaceStory& place) {
    return {{"bar", place.bar},
            {"beat", beat(place.beat)},
            {"section", place.section},
            {"from", text_or_null(place.from)},
            {"to", place.to},
            {"evenings", place.evenings},
            {"last", place.last},
            {"sums", change_sums_json(place.sums)},
            {"late", place.late},
            {"late_ms", rounded(place.late_ms)},
            {"early", place.early},
            {"missed", place.missed},
            {"waits", place.waits},
            {"wrong", place.wrong},
            {"incomplete", place.incomplete},
            {"no_better_for", place.stuck_for},
            {"trend", trend_json(place.trend)}};
}

Json named_tune(const history::KnownTune& tune) {
    return {{"title", tune.title},
            {"chart_hash", tune.chart_hash},
            {"chart_file", text_or_null(tune.chart_file)},
            {"drill", tune.drill}};
}

Json tune_json(const TuneWeeks& weeks) {
    const auto& story = weeks.story;
    auto json = named_tune(story.tune);
    json["bars"] = weeks.bars > 0 ? Json(weeks.bars) : Json(nullptr);
    json["first_played"] = story.first_played;
    json["last_played"] = story.last_played;
    json["evenings"] = story.evenings;
    json["takes"] = story.takes;
    json["minutes"] = minutes(story.seconds);
    json["heard_by_sound_lately"] = weeks.sound_lately;
    json["lately"] = change_sums_json(story.lately);
    json["whole_tunes_alone"] = story.by_whole_tunes;
    json["trend"] = trend_json(story.trend);
    json["tempo_trend"] = history::name_of(story.tempo_trend.course);
    json["then_and_now"] = then_and_now_json(story.then_and_now);
    json["clean"] = clean_json(story.clean);
    json["due"] = text_or_null(story.due);
    json["tempi"] = list_json(story.tempi, tempo_sums_json);
    json["weakest"] = list_json(story.weakest, place_json);
    json["transitions"] = list_json(story.transitions, transition_json);
    return json;
}

Json homework_json(const HomeworkSoFar& one, const WeeksAsked& asked) {
    auto json = named_tune(one.homework.tune);
    json["given"] = one.homework.given;
    json["from_bar"] = one.homework.from_bar;
    json["to_bar"] = one.homework.to_bar;
    json["from_bpm"] = rounded(one.homework.from_bpm);
    json["to_bpm"] = rounded(one.homework.to_bpm);
    json["clean_on"] = one.clean_on;
    json["days_wanted"] = history::days_wanted;
    json["done"] = one.is_done();
    json["line"] = homework_line(one.homework, asked).in_one_line();
    return json;
}

Json all_homework(const std::vector<HomeworkSoFar>& all, const WeeksAsked& asked) {
    Json json = Json::array();
    for (const auto& one : all) json.push_back(homework_json(one, asked));
    return json;
}

Json others_json(const history::PlayerSeen& player) {
    return {{"player", text_or_null(player.name)},
            {"evenings", player.evenings},
            {"last", text_or_null(player.last)}};
}

Json thing_json(const history::Thing& thing, const WeeksAsked& asked) {
    const bool has_tune = thing.kind != history::ThingKind::transition &&
                          thing.kind != history::ThingKind::first_take;
    const bool has_bars =
        thing.kind == history::ThingKind::place || thing.kind == history::ThingKind::homework;
    Json json = {{"kind", name_of(thing.kind)}};
    json["tune"] = has_tune ? named_tune(thing.tune) : Json(nullptr);
    json["task"] =
        thing.kind == history::ThingKind::place ? Json(name_of(thing.task)) : Json(nullptr);
    json["from_bar"] = has_bars ? Json(thing.from_bar) : Json(nullptr);
    json["to_bar"] = has_bars ? Json(thing.to_bar) : Json(nullptr);
    json["from_bpm"] = rounded(thing.from_bpm);
    json["to_bpm"] = rounded(thing.to_bpm);
    json["times"] = thing.times == 0 ? Json(nullptr) : Json(thing.times);
    json["minutes"] = thing.minutes;
    json["place"] = thing.place ? place_json(*thing.place) : Json(nullptr);
    json["transition"] = thing.transition ? transition_json(*thing.transition) : Json(nullptr);
    json["weak_in"] = thing.titles;
    json["last_played"] = text_or_null(thing.last_played);
    json["due"] = text_or_null(thing.due);
    json["what"] = what_words(thing);
    json["why"] = why_words(thing, asked);
    json["lines"] = Json::array();
    for (const auto& line : lines_of(thing, asked)) json["lines"].push_back(line.in_one_line());
    return json;
}

Json begun(const char* schema, const WeeksAsked& asked) {
    return {{"schema", schema}, {"today", asked.today}, {"player", text_or_null(asked.player)}};
}

std::string ended(const Json& json) {
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace

std::string weeks_json(const AllWeeks& weeks, const WeeksAsked& asked) {
    auto json = begun("compline.history/1", asked);
    json["since"] = text_or_null(asked.since);
    json["tunes"] = list_json(weeks.tunes, tune_json);
    json["homework"] = all_homework(weeks.homework, asked);
    json["others"] = list_json(weeks.others, others_json);
    return ended(json);
}

std::string next_json(const std::vector<history::Thing>& things, const WeeksAsked& asked) {
    auto json = begun("compline.next/1", asked);
    json["things"] = Json::array();
    for (const auto& thing : things) json["things"].push_back(thing_json(thing, asked));
    return ended(json);
}

std::string homework_json(const std::vector<HomeworkSoFar>& all, const WeeksAsked& asked) {
    auto json = begun("compline.homework/1", asked);
    json["homework"] = all_homework(all, asked);
    return ended(json);
}

}  // namespace compline::report
