#include "truth_json.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace compline::rough {

namespace {

using Json = nlohmann::ordered_json;

double to_microseconds(time::Seconds s) { return std::round(s.count() * 1e6) / 1e6; }

Json to_json(const simulate::TrueNote& it) {
    const auto& note = it.note;
    return {{"on_s", to_microseconds(note.on)},
            {"off_s", to_microseconds(note.off)},
            {"string", note.string.value_or(0)},
            {"fret", note.fret.value_or(0)},
            {"note", note.note.number()},
            {"velocity", note.velocity},
            {"slid", note.slid},
            {"dropped", it.dropped}};
}

Json to_json(const simulate::FaultDone& it) {
    return {{"fault", name_of(it.fault)},
            {"at_s", to_microseconds(it.at)},
            {"string", it.string},
            {"note", it.note.number()},
            {"length_s", to_microseconds(it.length)},
            {"velocity", it.velocity}};
}

}  // namespace

std::string truth_json(const simulate::RoughTake& take, std::uint64_t seed) {
    Json json;
    json["schema"] = "compline.truth/1";
    json["seed"] = seed;
    json["notes"] = Json::array();
    for (const auto& note : take.truth) json["notes"].push_back(to_json(note));
    json["faults"] = Json::array();
    for (const auto& fault : take.faults) json["faults"].push_back(to_json(fault));
    return json.dump(1) + "\n";
}

}  // namespace compline::rough
