#include "evening_sums.hpp"

#include "rows.hpp"

#include <compline/practice/ladder.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

namespace compline::history {

namespace {

constexpr const char* tables[] = {"evening", "evening_place", "evening_tempo", "clean_run"};

constexpr const char* of_evening = " WHERE player = ? AND chart = ? AND date = ?";

// 1 and 0 for true and false, so they can be added up.
constexpr const char* sum_places = R"sql(
INSERT INTO evening_place
SELECT t.player, t.chart, t.evening, c.bar, c.beat, t.played_key, max(c.section), max(c.from_chord),
       max(c.to_chord), count(*), sum(c.in_time), sum(c.right), sum(c.in_time AND c.right),
       sum(c.cost), sum(c.verdict = 'late'), sum(c.verdict = 'early'), sum(c.verdict = 'missed'),
       sum(c.wait), sum(c.tones = 'wrong'), sum(c.tones = 'incomplete'),
       sum(CASE c.verdict WHEN 'late' THEN coalesce(c.lateness_ms, 0) ELSE 0 END)
FROM take AS t JOIN change AS c ON c.take = t.id
WHERE t.player = ? AND t.chart = ? AND t.evening = ? AND c.counts
GROUP BY c.bar, c.beat, t.played_key
)sql";

constexpr const char* sum_tempi = R"sql(
INSERT INTO evening_tempo
SELECT t.player, t.chart, t.evening, CAST(round(c.bpm) AS INTEGER), count(*), sum(c.in_time),
       sum(c.right), sum(c.in_time AND c.right), sum(c.cost), 0, 0, sum(h.whole_tune),
       sum(h.whole_tune AND c.in_time), sum(h.whole_tune AND c.right),
       sum(h.whole_tune AND c.in_time AND c.right), sum(h.whole_tune * c.cost)
FROM take AS t JOIN change AS c ON c.take = t.id
     JOIN time_through AS h ON h.take = t.id AND h.number = c.time_through
WHERE t.player = ? AND t.chart = ? AND t.evening = ? AND c.counts
GROUP BY CAST(round(c.bpm) AS INTEGER)
)sql";

constexpr const char* sum_times = R"sql(
UPDATE evening_tempo SET (times, clean) =
    (SELECT count(*), coalesce(sum(h.clean), 0)
     FROM take AS t JOIN time_through AS h ON h.take = t.id
     WHERE t.player = evening_tempo.player AND t.chart = evening_tempo.chart
       AND t.evening = evening_tempo.date
       AND CAST(round(h.bpm) AS INTEGER) = evening_tempo.bpm)
WHERE player = ? AND chart = ? AND date = ?
)sql";

void run_for(Database& database, const std::string& sql, const EveningKey& evening) {
    database.statement(sql).with(evening.player, evening.chart, evening.date).run();
}

/// Clean times through, one after the other, of the same bars in the same tempo.
struct Bars {
    int from = 1;
    int to = 1;
    double bpm = 120;
    auto operator<=>(const Bars&) const = default;
};
using Runs = std::map<Bars, int>;

struct WholeTimes {
    int times = 0;
    int clean = 0;
    std::optional<double> clean_bpm;
    std::vector<double> tempi;
};

class CleanTimes {
  public:
    /// In the order in which they were played. What has too little struck is passed over, as a
    /// ladder does.
    void add(std::int64_t take, const KeptTimeThrough& time) {
        if (time.whole_tune) {
            ++whole_.times;
            whole_.tempi.push_back(time.bpm);
        }
        if (take != take_) row_ = 0;
        take_ = take;
        if (time.struck * 4 < time.due * 3) return;
        const Bars bars{time.from_bar, time.to_bar, time.bpm};
        if (bars != bars_ || !time.clean) row_ = 0;
        bars_ = bars;
        if (!time.clean) return;
        ++row_;
        auto& longest = runs_[bars];
        longest = std::max(longest, row_);
        if (time.whole_tune) add_whole(time);
    }

    [[nodiscard]] const Runs& runs() const { return runs_; }
    [[nodiscard]] const WholeTimes& whole() const { return whole_; }

  private:
    void add_whole(const KeptTimeThrough& time) {
        ++whole_.clean;
        const bool long_tune = time.to_bar - time.from_bar + 1 >= practice::Ladder::many_bars;
        if (row_ < (long_tune ? 1 : 2)) return;
        whole_.clean_bpm = std::max(whole_.clean_bpm.value_or(0), time.bpm);
    }

    std::int64_t take_ = 0;
    Bars bars_;
    int row_ = 0;
    Runs runs_;
    WholeTimes whole_;
};

CleanTimes clean_times(Database& database, const EveningKey& evening) {
    auto asked = database.statement(fmt::format(
        "SELECT take, {} FROM time_through JOIN (SELECT id, made FROM take WHERE player = ? "
        "AND chart = ? AND evening = ?) ON take = id ORDER BY made, id, number",
        time_columns));
    asked.with(evening.player, evening.chart, evening.date);
    CleanTimes times;
    while (asked.next()) {
        std::int64_t take = 0;
        KeptTimeThrough time;
        read_row(asked, std::tuple_cat(std::tie(take), fields_of_time(time)));
        times.add(take, time);
    }
    return times;
}

double middle_of(std::vector<double> tempi) {
    if (tempi.empty()) return 0;
    const auto middle = tempi.begin() + static_cast<std::ptrdiff_t>(tempi.size() / 2);
    std::nth_element(tempi.begin(), middle, tempi.end());
    return *middle;
}

/// Of what was played, half was slower.
double usual_bpm(Database& database, const EveningKey& evening) {
    auto asked = database.statement(
        "SELECT bpm, counted FROM evening_tempo WHERE player = ? AND "
        "chart = ? AND date = ? ORDER BY bpm");
    asked.with(evening.player, evening.chart, evening.date);
    std::vector<std::pair<int, int>> tempi;
    int all = 0;
    while (asked.next()) {
        auto& [bpm, counted] = tempi.emplace_back();
        asked.read(bpm, counted);
        all += counted;
    }
    int so_far = 0;
    for (const auto& [bpm, counted] : tempi) {
        so_far += counted;
        if (2 * so_far >= all) return bpm;
    }
    return 0;
}

TuneEvening sums_of(Database& database, const EveningKey& evening) {
    TuneEvening row;
    row.date = evening.date;
    auto asked = database.statement(
        "SELECT sum(seconds), count(*), sum(counted), sum(in_time), sum(right), sum(both), "
        "sum(cost), max(by_sound), min(slowest_bpm), max(fastest_bpm) FROM take "
        "WHERE player = ? AND chart = ? AND evening = ?");
    if (asked.with(evening.player, evening.chart, evening.date).next()) {
        asked.read(row.seconds, row.takes, row.sums.of, row.sums.in_time, row.sums.right,
                   row.sums.both, row.sums.cost, row.by_sound, row.slowest_bpm, row.fastest_bpm);
    }
    return row;
}

void sum_whole_tunes(Database& database, const EveningKey& evening, TuneEvening& row) {
    auto asked = database.statement(
        "SELECT sum(whole_counted), sum(whole_in_time), sum(whole_right), sum(whole_both), "
        "sum(whole_cost) FROM evening_tempo WHERE player = ? AND chart = ? AND date = ?");
    if (asked.with(evening.player, evening.chart, evening.date).next()) {
        asked.read(row.whole.of, row.whole.in_time, row.whole.right, row.whole.both,
                   row.whole.cost);
    }
}

void write_evening(Database& database, const EveningKey& evening) {
    auto row = sums_of(database, evening);
    const auto times = clean_times(database, evening);
    row.usual_bpm = usual_bpm(database, evening);
    row.whole_times = times.whole().times;
    row.clean_whole_times = times.whole().clean;
    row.clean_bpm = times.whole().clean_bpm;
    row.whole_bpm = middle_of(times.whole().tempi);
    sum_whole_tunes(database, evening, row);
    const auto owner = std::tuple(evening.player, evening.chart);
    const std::string whose = "player, chart, ";
    auto insert = database.statement(insert_into("evening", whose + evening_columns));
    write_row(insert, owner, fields_of_evening(row));
    auto insert_run = database.statement(insert_into("clean_run", whose + run_columns));
    for (const auto& [bars, in_a_row] : times.runs()) {
        const CleanRun run{evening.date, bars.from, bars.to, bars.bpm, in_a_row};
        write_row(insert_run, owner, fields_of_run(run));
    }
}

}  // namespace

void sum_evening(Database& database, const EveningKey& evening) {
    for (const auto* table : tables) {
        run_for(database, fmt::format("DELETE FROM {}{}", table, of_evening), evening);
    }
    auto any = database.statement(
        "SELECT 1 FROM take WHERE player = ? AND chart = ? AND evening = ? LIMIT 1");
    if (!any.with(evening.player, evening.chart, evening.date).next()) return;
    run_for(database, sum_places, evening);
    run_for(database, sum_tempi, evening);
    run_for(database, sum_times, evening);
    write_evening(database, evening);
}

void sum_all_evenings(Database& database) {
    auto asked = database.statement("SELECT DISTINCT player, chart, evening FROM take");
    std::vector<EveningKey> evenings;
    while (asked.next()) {
        auto& key = evenings.emplace_back();
        asked.read(key.player, key.chart, key.date);
    }
    for (const auto& evening : evenings) sum_evening(database, evening);
}

}  // namespace compline::history
