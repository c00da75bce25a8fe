#include "json_values.hpp"
#include "place_json.hpp"

#include <compline/practice/time_alone.hpp>
#include <compline/report/takes.hpp>

#include <span>

namespace compline::report {

namespace {

using practice::ComparedPlace;

Json compared_place_json(const ComparedPlace& place) {
    auto json = compared_change_json(place);
    json["is"] = place.is_better() ? "better" : place.is_worse() ? "worse" : "same";
    json["before"] = figures_json(place.before);
    json["after"] = figures_json(place.after);
    return json;
}

Json side_json(std::span<const practice::Report> takes, const practice::RightChanges& changes) {
    const auto& last = takes.back();
    Json json = {{"take", takes.size() == 1 ? text_or_null(last.take) : Json(nullptr)},
                 {"made", text_or_null(last.made)},
                 {"chart_hash", text_or_null(last.chart_hash)},
                 {"tempo_bpm", shortest(last.map.tempo().count())},
                 {"changes", changes.of},
                 {"right", changes.right}};
    for (const auto& take : takes) {
        if (takes.size() > 1) json["takes"].push_back(text_or_null(take.take));
        if (!practice::judges_tones(take)) json["heard"] = listen::name_of(take.heard.heard_by);
    }
    return json;
}

}  // namespace

std::string to_json(const practice::Comparison& comparison,
                    std::span<const practice::Report> before,
                    std::span<const practice::Report> after) {
    const auto& chart = after.back().map.form().chart;
    Json json;
    json["schema"] = "compline.comparison/1";
    json["program"] = text_or_null(after.back().program);
    json["chart"] = {{"title", chart.title}, {"key", chart.key.name(as_letters)}};
    if (comparison.time_alone) json["time_alone"] = true;
    json["before"] = side_json(before, comparison.right_before);
    json["after"] = side_json(after, comparison.right_after);
    json["places"] = list_json(comparison.places, compared_place_json);
    json["only_before"] = comparison.only_before;
    json["only_after"] = comparison.only_after;
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace compline::report
