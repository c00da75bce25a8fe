#pragma once

#include "database.hpp"

#include <compline/history/judged_take.hpp>
#include <compline/history/tune_history.hpp>

#include <tuple>

namespace compline::history {

// What stands in which column: the fields of a row in the order in which its columns are named, to
// be written and to be read.

inline constexpr const char* chart_columns = "hash, title, tune_key, text, file, drill";
template <typename Chart>
auto fields_of_chart(Chart& c) {
    return std::tie(c.hash, c.title, c.key, c.text, c.file, c.drill);
}

inline constexpr const char* take_columns =
    "fingerprint, folder, file, player, made, evening, program, rules, of_ours, played_key, asked, "
    "from_bar, to_bar, slowest_bpm, fastest_bpm, ladder_from, ladder_to, seconds, by_sound, "
    "changes, uncertain, counted, in_time, right, both, struck, cost";
template <typename Take>
auto fields_of_take(Take& t) {
    return std::tie(t.fingerprint, t.folder, t.file, t.player, t.made, t.evening, t.program,
                    t.rules, t.of_ours, t.key, t.asked, t.from_bar, t.to_bar, t.slowest_bpm,
                    t.fastest_bpm, t.ladder_from, t.ladder_to, t.seconds, t.by_sound, t.changes,
                    t.uncertain, t.counted, t.in_time, t.right, t.both, t.struck, t.cost);
}

inline constexpr const char* time_columns =
    "number, from_bar, to_bar, whole_tune, bpm, seconds, due, struck, right, missed, clean";
template <typename Time>
auto fields_of_time(Time& t) {
    return std::tie(t.number, t.from_bar, t.to_bar, t.whole_tune, t.bpm, t.seconds, t.due, t.struck,
                    t.right, t.missed, t.clean);
}

inline constexpr const char* change_columns =
    "time_through, bar, beat, section, from_chord, to_chord, bpm, verdict, lateness_ms, "
    "relative_ms, tones, missing, wrong, cost, in_time, right, counts, uncertain, seam, wait, "
    "left_out, optional";
template <typename Change>
auto fields_of_change(Change& c) {
    return std::tie(c.time_through, c.bar, c.beat, c.section, c.from, c.to, c.bpm, c.verdict,
                    c.lateness_ms, c.relative_ms, c.tones, c.missing, c.wrong, c.cost, c.in_time,
                    c.right, c.counts, c.uncertain, c.seam, c.wait, c.left_out, c.optional);
}

inline constexpr const char* strum_columns =
    "time_through, bar, beat, asynchrony_ms, read_as, off_beat";
template <typename Strum>
auto fields_of_strum(Strum& s) {
    return std::tie(s.time_through, s.bar, s.beat, s.asynchrony_ms, s.read_as, s.off_beat);
}

inline constexpr const char* evening_columns =
    "date, seconds, takes, counted, in_time, right, both, cost, by_sound, whole_times, "
    "clean_whole_times, slowest_bpm, fastest_bpm, usual_bpm, clean_bpm, whole_counted, "
    "whole_in_time, whole_right, whole_both, whole_cost, whole_bpm";
template <typename Evening>
auto fields_of_evening(Evening& e) {
    return std::tie(e.date, e.seconds, e.takes, e.sums.of, e.sums.in_time, e.sums.right,
                    e.sums.both, e.sums.cost, e.by_sound, e.whole_times, e.clean_whole_times,
                    e.slowest_bpm, e.fastest_bpm, e.usual_bpm, e.clean_bpm, e.whole.of,
                    e.whole.in_time, e.whole.right, e.whole.both, e.whole.cost, e.whole_bpm);
}

inline constexpr const char* place_columns =
    "date, bar, beat, played_key, section, from_chord, to_chord, counted, in_time, right, both, "
    "cost, late, early, missed, waits, wrong, incomplete, late_ms";
template <typename Place>
auto fields_of_place(Place& p) {
    return std::tie(p.date, p.bar, p.beat, p.key, p.section, p.from, p.to, p.sums.of,
                    p.sums.in_time, p.sums.right, p.sums.both, p.sums.cost, p.late, p.early,
                    p.missed, p.waits, p.wrong, p.incomplete, p.late_ms);
}

inline constexpr const char* run_columns = "date, from_bar, to_bar, bpm, in_a_row";
template <typename Run>
auto fields_of_run(Run& r) {
    return std::tie(r.date, r.from_bar, r.to_bar, r.bpm, r.in_a_row);
}

/// Reads a row into these fields.
template <typename... Fields>
void read_row(Statement& statement, const std::tuple<Fields&...>& fields) {
    std::apply([&](auto&... values) { statement.read(values...); }, fields);
}

/// Writes a row: first what it belongs to, then these fields.
template <typename Owner, typename... Fields>
void write_row(Statement& statement, const Owner& owner, const std::tuple<Fields&...>& fields) {
    std::apply(
        [&](const auto&... whose) {
            std::apply([&](auto&... values) { statement.with(whose..., values...).run(); }, fields);
        },
        owner);
}

/// "INSERT INTO table (owner, columns) VALUES (?, ?, ...)".
[[nodiscard]] std::string insert_into(const char* table, const std::string& columns);

/// Rows of a take, by its number in the database. A take that is there must be taken out first.
std::int64_t write_take(Database& database, std::int64_t chart, const JudgedTake& judged);
[[nodiscard]] std::optional<JudgedTake> read_take_rows(Database& database,
                                                       const std::string& fingerprint);

}  // namespace compline::history
