#include "tune_reader.hpp"

#include "place_rows.hpp"
#include "rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace compline::history {

namespace {

constexpr const char* whose = "WHERE player = ? AND chart = ? AND date >= ?";

std::string of_chart(const char* columns, const char* table) {
    return fmt::format("SELECT {} FROM {} {}", columns, table, whose);
}

/// One evening, two charts of a tune.
void add(TuneEvening& evening, const TuneEvening& more) {
    if (more.sums.of > evening.sums.of) evening.usual_bpm = more.usual_bpm;
    add(evening.sums, more.sums);
    if (more.whole.of > evening.whole.of) evening.whole_bpm = more.whole_bpm;
    add(evening.whole, more.whole);
    evening.seconds += more.seconds;
    evening.takes += more.takes;
    evening.by_sound = evening.by_sound || more.by_sound;
    evening.whole_times += more.whole_times;
    evening.clean_whole_times += more.clean_whole_times;
    evening.slowest_bpm = std::min(evening.slowest_bpm, more.slowest_bpm);
    evening.fastest_bpm = std::max(evening.fastest_bpm, more.fastest_bpm);
    if (more.clean_bpm) {
        evening.clean_bpm = std::max(evening.clean_bpm.value_or(0), *more.clean_bpm);
    }
}

void add(TempoSums& tempo, const TempoSums& more) {
    add(tempo.sums, more.sums);
    add(tempo.whole, more.whole);
    tempo.times += more.times;
    tempo.clean += more.clean;
    tempo.last = std::max(tempo.last, more.last);
}

template <typename Row, typename Same>
void add_or_append(const Row& row, std::vector<Row>& rows, Same same) {
    const auto found = std::find_if(rows.begin(), rows.end(), same);
    if (found == rows.end()) {
        rows.push_back(row);
    } else {
        add(*found, row);
    }
}

bool has(const ChartPlaces& places, const PlaceEvening& place) {
    const auto found = places.find({place.bar, place.beat});
    return found != places.end() && found->second == place.to;
}

void sort_all(TuneHistory& history) {
    const auto by_date = [](const auto& a, const auto& b) { return a.date < b.date; };
    std::stable_sort(history.evenings.begin(), history.evenings.end(), by_date);
    std::stable_sort(history.runs.begin(), history.runs.end(), by_date);
    std::stable_sort(history.places.begin(), history.places.end(),
                     [](const PlaceEvening& a, const PlaceEvening& b) {
                         return std::tie(a.date, a.bar, a.beat) < std::tie(b.date, b.bar, b.beat);
                     });
    std::stable_sort(history.tempi.begin(), history.tempi.end(),
                     [](const auto& a, const auto& b) { return a.bpm < b.bpm; });
}

}  // namespace

KnownTune known_tune(Database& database, std::int64_t chart) {
    KnownTune tune;
    auto asked =
        database.statement("SELECT tune, title, hash, text, file, drill FROM chart WHERE id = ?");
    if (asked.with(chart).next()) {
        asked.read(tune.id, tune.title, tune.chart_hash, tune.chart_text, tune.chart_file,
                   tune.drill);
    }
    return tune;
}

TuneReader::TuneReader(Database& database, std::string player, std::string since)
    : database_(database),
      player_(std::move(player)),
      since_(std::move(since)),
      evenings_(database.statement(of_chart(evening_columns, "evening"))),
      places_(database.statement(of_chart(place_columns, "evening_place"))),
      tempi_(database.statement(fmt::format(
          "SELECT bpm, sum(counted), sum(in_time), sum(right), sum(both), sum(cost), sum(times), "
          "sum(clean), max(date), sum(whole_counted), sum(whole_in_time), sum(whole_right), "
          "sum(whole_both), sum(whole_cost) FROM evening_tempo {} GROUP BY bpm",
          whose))),
      runs_(database.statement(of_chart(run_columns, "clean_run"))),
      hash_(database.statement("SELECT hash FROM chart WHERE id = ?")) {}

std::vector<TuneHistory> TuneReader::all() {
    // Of each tune the chart that was played last is behind the others.
    auto asked = database_.statement(
        "SELECT c.tune, c.id FROM evening AS e JOIN chart AS c ON c.id = e.chart "
        "WHERE e.player = ? GROUP BY c.id ORDER BY max(e.date), "
        "(SELECT max(made) FROM take WHERE chart = c.id AND player = e.player)");
    asked.with(player_);
    std::vector<std::pair<std::int64_t, std::int64_t>> charts;
    while (asked.next()) {
        auto& [tune, chart] = charts.emplace_back();
        asked.read(tune, chart);
    }
    std::reverse(charts.begin(), charts.end());
    std::vector<std::int64_t> seen;
    std::vector<TuneHistory> tunes;
    for (const auto& [tune, chart] : charts) {
        if (std::find(seen.begin(), seen.end(), tune) != seen.end()) continue;
        seen.push_back(tune);
        auto history = read(known_tune(database_, chart), charts_of(tune));
        if (!history.evenings.empty()) tunes.push_back(std::move(history));
    }
    return tunes;
}

std::optional<TuneHistory> TuneReader::one(std::int64_t tune, const KeptChart& chart) {
    const KnownTune known{tune, chart.title, chart.hash, chart.text, chart.file, chart.drill};
    auto history = read(known, charts_of(tune));
    if (history.evenings.empty()) return std::nullopt;
    return history;
}

std::vector<std::int64_t> TuneReader::charts_of(std::int64_t tune) {
    auto asked = database_.statement("SELECT id FROM chart WHERE tune = ? ORDER BY id");
    asked.with(tune);
    std::vector<std::int64_t> charts;
    while (asked.next()) asked.read(charts.emplace_back());
    return charts;
}

TuneHistory TuneReader::read(const KnownTune& tune, const std::vector<std::int64_t>& charts) {
    TuneHistory history;
    history.tune = tune;
    const auto shape = shape_of(tune.chart_text);
    history.bars = shape.bars;
    history.chart_bpm = shape.bpm;
    history.beats_a_bar = shape.beats_a_bar;
    for (const auto chart : charts) add_chart(chart, tune.chart_hash, shape.places, history);
    sort_all(history);
    return history;
}

void TuneReader::add_chart(std::int64_t chart, const std::string& hash, const ChartPlaces& places,
                           TuneHistory& history) {
    std::string own_hash;
    if (hash_.with(chart).next()) hash_.read(own_hash);
    const bool is_same = own_hash == hash;
    std::map<std::string, ChangeSums> alike;
    places_.with(player_, chart, since_);
    while (places_.next()) {
        PlaceEvening place;
        read_row(places_, fields_of_place(place));
        if (!is_same && !has(places, place)) continue;
        if (!is_same) add(alike[place.date], place.sums);
        history.places.push_back(std::move(place));
    }
    evenings_.with(player_, chart, since_);
    while (evenings_.next()) {
        TuneEvening evening;
        read_row(evenings_, fields_of_evening(evening));
        if (!is_same) {
            evening.sums = alike[evening.date];
            evening.whole = {};
        }
        add_or_append(evening, history.evenings,
                      [&](const auto& other) { return other.date == evening.date; });
    }
    tempi_.with(player_, chart, since_);
    while (tempi_.next()) {
        TempoSums tempo;
        tempi_.read(tempo.bpm, tempo.sums.of, tempo.sums.in_time, tempo.sums.right, tempo.sums.both,
                    tempo.sums.cost, tempo.times, tempo.clean, tempo.last, tempo.whole.of,
                    tempo.whole.in_time, tempo.whole.right, tempo.whole.both, tempo.whole.cost);
        add_or_append(tempo, history.tempi,
                      [&](const auto& other) { return other.bpm == tempo.bpm; });
    }
    runs_.with(player_, chart, since_);
    while (runs_.next()) read_row(runs_, fields_of_run(history.runs.emplace_back()));
}

}  // namespace compline::history
