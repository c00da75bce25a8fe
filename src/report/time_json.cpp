#include "time_json.hpp"

namespace compline::report {

namespace {

Json spread_json(const assess::Spread& spread) {
    return {{"strums", spread.count},
            {"mean_ms", number(spread.mean_ms)},
            {"sd_ms", number(spread.sd_ms)}};
}

Json per_beat_json(const assess::TimeKeeping& time) {
    Json json = Json::array();
    for (const auto& written : time.per_beat) {
        json.push_back({{"beat", beat(time::BeatOfBar(written.in_bar))},
                        {"strums", written.strums.count},
                        {"missing", written.missing},
                        {"mean_ms", number(written.strums.mean_ms)},
                        {"sd_ms", number(written.strums.sd_ms)}});
    }
    return json;
}

Json silences_json(const assess::TimeKeeping& time) {
    Json json = Json::array();
    for (const auto& silence : time.silences) {
        json.push_back({{"first_bar_played", silence.first_bar},
                        {"bars", silence.bars},
                        {"strums", silence.strums},
                        {"came_back_ms", number(silence.came_back_ms)}});
    }
    return json;
}

Json strum_json(const assess::ReadStrum& strum) {
    return {{"time_through", strum.time_through},
            {"bar", strum.bar},
            {"beat", beat(strum.beat)},
            {"asynchrony_ms", milliseconds(strum.asynchrony)},
            {"read_as", assess::name_of(strum.read_as)}};
}

}  // namespace

Json time_json(const assess::TimeKeeping& time) {
    Json json = spread_json(time.all);
    json["drift_ms_per_bar"] = number(time.drift_ms_per_bar);
    json["swing_ratio"] = number(time.swing_ratio);
    json["missing_strums"] = time.missing_strums;
    json["on_beats"] = spread_json(time.on_beats);
    json["off_beats"] = spread_json(time.off_beats);
    json["per_beat"] = per_beat_json(time);
    json["silences"] = silences_json(time);
    json["kicks"] = spread_json(time.kicks.caught);
    json["kicks"]["written"] = time.kicks.written;
    return json;
}

Json own_place_json(const assess::OwnPlace& place) {
    return {{"on_beats", milliseconds(place.on_beats)},
            {"off_beats", milliseconds(place.off_beats)},
            {"told_apart", place.told_apart}};
}

Json astray_json(const assess::Astray& astray) {
    return {{"time_through", astray.time_through},
            {"from_bar", astray.from_bar},
            {"to_bar", astray.to_bar},
            {"bars", shortest(astray.bars)},
            {"changes", astray.changes}};
}

std::string strums_text(const std::vector<assess::ReadStrum>& strums) {
    std::string text = "[";
    for (const auto& strum : strums) {
        text += (text.size() > 1 ? ",\n    " : "\n    ") + strum_json(strum).dump();
    }
    return text + (strums.empty() ? "]" : "\n  ]");
}

}  // namespace compline::report
