#include "json_values.hpp"
#include "place_json.hpp"

#include <compline/report/over_time.hpp>

namespace compline::report {

namespace {

using practice::OverTime;
using practice::PlaceFigures;
using practice::PlaceOverTime;
using practice::PlayedEvening;

Json sums_json(const PlaceFigures& figures) {
    return {{"changes", figures.of}, {"laid_out", figures.laid_out}, {"right", figures.right}};
}

Json evening_json(const PlayedEvening& evening) {
    const auto& tempi = evening.tempi;
    Json json = {{"evening", text_or_null(evening.date)},
                 {"takes", evening.takes},
                 {"slowest_bpm", tempi ? shortest(tempi->slowest.count()) : Json(nullptr)},
                 {"fastest_bpm", tempi ? shortest(tempi->fastest.count()) : Json(nullptr)},
                 {"keys", list_json<chart::Key>(evening.keys, [](const chart::Key& key) {
                      return Json(key.name(as_letters));
                  })}};
    json.update(sums_json(evening.all));
    return json;
}

Json place_over_time_json(const PlaceOverTime& place) {
    auto json = compared_change_json(place.between);
    json["is"] = practice::name_of(place.became());
    json["evenings"] = place.evenings;
    json["before"] = figures_json(place.between.before);
    json["after"] = figures_json(place.between.after);
    json["by_evening"] = list_json<std::optional<PlaceFigures>>(place.on, [](const auto& figures) {
        return figures ? figures_json(*figures) : Json(nullptr);
    });
    return json;
}

Json other_json(const OtherTune& other) { return {{"title", other.title}, {"takes", other.takes}}; }

}  // namespace

std::string to_json(const OverTime& over, const std::vector<OtherTune>& others) {
    Json json;
    json["schema"] = "compline.progress/1";
    json["program"] = text_or_null(over.program);
    json["chart"] = {{"title", over.title}, {"key", over.key.name(as_letters)}};
    if (over.time_alone) json["time_alone"] = true;
    json["takes"] = over.takes;
    json["takes_by_sound"] = over.takes_by_sound;
    json["evenings"] = list_json(over.evenings, evening_json);
    json["before"] = sums_json(over.before);
    json["after"] = sums_json(over.after);
    json["places"] = list_json(over.places, place_over_time_json);
    json["other_tunes"] = list_json(others, other_json);
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace compline::report
