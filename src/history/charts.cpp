#include "charts.hpp"

#include "rows.hpp"

#include <compline/chart/form.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace compline::history {

namespace {

ChartPlaces places_of_form(const chart::Form& form) {
    ChartPlaces places;
    std::string before;
    for (const auto& span : form.spans) {
        const auto symbol = span.chord ? span.chord->symbol(harmony::Accidentals::letters) : "";
        if (symbol != before && span.chord) {
            const auto in_bar = span.start - form.bar(span.bar).start;
            places[{span.bar, time::BeatOfBar(in_bar)}] = symbol;
        }
        before = symbol;
    }
    return places;
}

bool are_one_tune(const ChartPlaces& one, const ChartPlaces& other) {
    const auto same = std::count_if(one.begin(), one.end(), [&](const auto& place) {
        const auto found = other.find(place.first);
        return found != other.end() && found->second == place.second;
    });
    const auto fewer = static_cast<std::ptrdiff_t>(std::min(one.size(), other.size()));
    return fewer > 0 && 2 * same >= fewer;
}

struct KnownChart {
    std::int64_t tune = 0;
    std::string title;
    std::string text;
};

std::vector<KnownChart> known_charts(Database& database) {
    auto asked = database.statement("SELECT tune, title, text FROM chart ORDER BY id DESC");
    std::vector<KnownChart> charts;
    while (asked.next()) {
        auto& chart = charts.emplace_back();
        asked.read(chart.tune, chart.title, chart.text);
    }
    return charts;
}

std::int64_t new_tune(Database& database, const std::string& title) {
    database.statement("INSERT INTO tune (title) VALUES (?)").with(title).run();
    return database.last_row();
}

}  // namespace

ChartShape shape_of(const std::string& chart_text) {
    try {
        const auto form = chart::unroll(chart::read_chart(chart_text, "a chart of the history"));
        const auto bar = time::Beats(form.bar(1).meter.bar()).count();
        return {places_of_form(form), form.whole().to, form.chart.tempo.count(),
                static_cast<int>(std::lround(bar))};
    } catch (const chart::ChartError&) {
        return {};
    }
}

std::int64_t tune_of(Database& database, const KeptChart& chart) {
    auto same = database.statement("SELECT tune FROM chart WHERE hash = ?");
    std::int64_t tune = 0;
    if (same.with(chart.hash).next()) {
        same.read(tune);
        return tune;
    }
    if (chart.drill) return 0;
    const auto places = shape_of(chart.text).places;
    for (const auto& known : known_charts(database)) {
        if (!text::same_but_for_capitals(known.title, chart.title)) continue;
        if (are_one_tune(places, shape_of(known.text).places)) return known.tune;
    }
    return 0;
}

std::int64_t chart_row(Database& database, const KeptChart& chart, const std::string& made) {
    auto same = database.statement("SELECT id FROM chart WHERE hash = ?");
    if (!same.with(chart.hash).next()) {
        auto tune = tune_of(database, chart);
        if (tune == 0) tune = new_tune(database, chart.title);
        auto insert =
            database.statement(insert_into("chart", std::string("tune, ") + chart_columns));
        write_row(insert, std::tuple(tune), fields_of_chart(chart));
        return database.last_row();
    }
    std::int64_t id = 0;
    same.read(id);
    if (!chart.file.empty()) {
        database.statement("UPDATE chart SET file = ? WHERE id = ?").with(chart.file, id).run();
    }
    auto newer = database.statement("SELECT 1 FROM take WHERE chart = ? AND made > ? LIMIT 1");
    if (newer.with(id, made).next()) return id;
    database.statement("UPDATE chart SET title = ?, text = ? WHERE id = ?")
        .with(chart.title, chart.text, id)
        .run();
    return id;
}

void remove_unused_charts(Database& database) {
    database.run(
        "DELETE FROM chart WHERE id NOT IN (SELECT chart FROM take) AND id NOT IN (SELECT chart "
        "FROM homework); DELETE FROM tune WHERE id NOT IN (SELECT tune FROM chart)");
}

}  // namespace compline::history
