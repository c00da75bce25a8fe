#include "rows.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace compline::history {

namespace {

template <typename Row, typename Fields>
std::vector<Row> rows_of(Database& database, std::int64_t take, const char* table,
                         const char* columns, Fields fields) {
    auto asked = database.statement(
        fmt::format("SELECT {} FROM {} WHERE take = ? ORDER BY number", columns, table));
    asked.with(take);
    std::vector<Row> rows;
    while (asked.next()) read_row(asked, fields(rows.emplace_back()));
    return rows;
}

template <typename Row, typename Fields>
void write_numbered(Database& database, std::int64_t take, const char* table, const char* columns,
                    const std::vector<Row>& rows, Fields fields) {
    auto insert = database.statement(insert_into(table, std::string("take, number, ") + columns));
    int number = 0;
    for (const auto& row : rows) write_row(insert, std::tuple(take, ++number), fields(row));
}

}  // namespace

std::string insert_into(const char* table, const std::string& columns) {
    const auto commas = std::count(columns.begin(), columns.end(), ',');
    std::string marks = "?";
    for (auto i = commas; i > 0; --i) marks += ", ?";
    return fmt::format("INSERT INTO {} ({}) VALUES ({})", table, columns, marks);
}

std::int64_t write_take(Database& database, std::int64_t chart, const JudgedTake& judged) {
    auto insert = database.statement(insert_into("take", std::string("chart, ") + take_columns));
    write_row(insert, std::tuple(chart), fields_of_take(judged.take));
    const auto take = database.last_row();
    auto times =
        database.statement(insert_into("time_through", std::string("take, ") + time_columns));
    for (const auto& row : judged.times) write_row(times, std::tuple(take), fields_of_time(row));
    write_numbered(database, take, "change", change_columns, judged.changes,
                   [](const auto& row) { return fields_of_change(row); });
    write_numbered(database, take, "strum", strum_columns, judged.strums,
                   [](const auto& row) { return fields_of_strum(row); });
    return take;
}

std::optional<JudgedTake> read_take_rows(Database& database, const std::string& fingerprint) {
    auto asked = database.statement("SELECT id, chart FROM take WHERE fingerprint = ?");
    if (!asked.with(fingerprint).next()) return std::nullopt;
    std::int64_t take = 0;
    std::int64_t chart = 0;
    asked.read(take, chart);
    JudgedTake judged;
    auto chart_row =
        database.statement(fmt::format("SELECT {} FROM chart WHERE id = ?", chart_columns));
    if (chart_row.with(chart).next()) read_row(chart_row, fields_of_chart(judged.chart));
    auto take_row =
        database.statement(fmt::format("SELECT {} FROM take WHERE id = ?", take_columns));
    if (take_row.with(take).next()) read_row(take_row, fields_of_take(judged.take));
    judged.times = rows_of<KeptTimeThrough>(database, take, "time_through", time_columns,
                                            [](auto& row) { return fields_of_time(row); });
    judged.changes = rows_of<KeptChange>(database, take, "change", change_columns,
                                         [](auto& row) { return fields_of_change(row); });
    judged.strums = rows_of<KeptStrum>(database, take, "strum", strum_columns,
                                       [](auto& row) { return fields_of_strum(row); });
    return judged;
}

}  // namespace compline::history
