#include "band_json.hpp"

#include <string>
#include <utility>

namespace compline::practice {

using Json = nlohmann::ordered_json;

Json to_json(const band::Players& players) {
    Json json = Json::object();
    if (!players.hihat_beats.empty()) json["hihat_beats"] = players.hihat_beats;
    if (players.fills) json["fills"] = true;
    if (players.crash) json["crash"] = true;
    json["seed"] = players.seed;
    if (!players.melody.empty()) json["melody"] = Json::array();
    for (const auto& note : players.melody) {
        json["melody"].push_back(
            {note.at.count(), note.length.count(), note.note.number(), note.velocity});
    }
    return json;
}

band::Players read_players(const JsonValue& json) {
    constexpr int most_beats = 64;  // of a bar
    constexpr double furthest_beat = 1e6;
    constexpr int loudest = 127;
    band::Players players;
    if (const auto beats = json.find("hihat_beats")) {
        for (const auto& beat : beats->items()) {
            players.hihat_beats.push_back(beat.count(1, most_beats));
        }
    }
    if (const auto fills = json.find("fills")) players.fills = fills->flag();
    if (const auto crash = json.find("crash")) players.crash = crash->flag();
    players.seed = static_cast<std::uint64_t>(json.at("seed").whole(0, INT64_MAX));
    const auto melody = json.find("melody");
    if (!melody) return players;
    for (const auto& item : melody->items()) {
        const auto note = item.items();
        if (note.size() != 4) item.refuse("where, how long, which note, how loud");
        players.melody.push_back({time::Beats(note[0].number(0, furthest_beat)),
                                  time::Beats(note[1].number(0, furthest_beat)),
                                  harmony::MidiNote(note[2].count(0, loudest)),
                                  note[3].count(1, loudest)});
    }
    return players;
}

Json to_json(const band::Stage& stage) {
    Json json = Json::object();
    for (int i = 0; i < band::chair_count; ++i) {
        const auto chair = static_cast<band::Chair>(i);
        const auto& seat = stage.seat(chair);
        Json one = Json::object();
        if (seat.gain != 1.0F) one["gain"] = seat.gain;
        if (seat.pan) one["pan"] = *seat.pan;
        if (seat.behind != time::Seconds(0)) one["behind_ms"] = seat.behind.milliseconds();
        if (!one.empty()) json[std::string(band::name_of(chair))] = std::move(one);
    }
    return json;
}

band::Stage read_stage(const JsonValue& json) {
    constexpr double loudest = 100;
    const double furthest_ms = band::furthest_behind.milliseconds();
    band::Stage stage;
    for (int i = 0; i < band::chair_count; ++i) {
        const auto chair = static_cast<band::Chair>(i);
        const auto one = json.find(std::string(band::name_of(chair)));
        if (!one) continue;
        auto& seat = stage.seat(chair);
        if (const auto gain = one->find("gain")) {
            seat.gain = static_cast<float>(gain->number(0, loudest));
        }
        if (const auto pan = one->find("pan")) seat.pan = static_cast<float>(pan->number(-1, 1));
        if (const auto behind = one->find("behind_ms")) {
            seat.behind = time::from_milliseconds(behind->number(-furthest_ms, furthest_ms));
        }
    }
    return stage;
}

}  // namespace compline::practice
