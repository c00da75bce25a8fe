#include "place_json.hpp"

namespace compline::report {

using practice::ComparedPlace;
using practice::PlaceFault;
using practice::PlaceFigures;

Json compared_change_json(const ComparedPlace& place) {
    return {{"bar", place.bar},
            {"beat", beat(place.beat)},
            {"section", place.section},
            {"from", place.from ? Json(place.from->symbol(as_letters)) : Json(nullptr)},
            {"to", place.to.symbol(as_letters)}};
}

Json figures_json(const PlaceFigures& figures) {
    Json json = {{"of", figures.of}, {"right", figures.right}, {"cost", rounded(figures.cost)}};
    for (std::size_t i = 0; i < practice::place_faults; ++i) {
        json[std::string(practice::name_of(static_cast<PlaceFault>(i)))] = figures.faults[i];
    }
    json["laid_out"] = figures.laid_out;
    json["late_ms"] = number(figures.late_ms());
    json["early_ms"] = number(figures.early_ms());
    return json;
}

}  // namespace compline::report
