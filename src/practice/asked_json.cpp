#include "asked_json.hpp"

#include <algorithm>

namespace compline::practice {

namespace {

using Json = nlohmann::ordered_json;

constexpr int most_apart = 64;
constexpr int furthest_tick = 1'000'000;

Json to_json(const chart::AskedManner& manner) {
    Json json = Json::object();
    if (manner.feel) json["feel"] = chart::name_of(*manner.feel);
    if (manner.drums) json["drums"] = chart::name_of(*manner.drums);
    if (manner.bass) json["bass"] = chart::name_of(*manner.bass);
    if (manner.plain_bass) json["plain_bass"] = true;
    if (manner.phrasing) json["phrasing"] = chart::name_of(*manner.phrasing);
    return json;
}

chart::AskedManner read_manner(const JsonValue& json) {
    chart::AskedManner manner;
    if (const auto feel = json.find("feel")) manner.feel = feel->named(chart::find_feel);
    if (const auto drums = json.find("drums")) manner.drums = drums->named(chart::find_drums);
    if (const auto bass = json.find("bass")) manner.bass = bass->named(chart::find_bass);
    if (const auto plain = json.find("plain_bass")) manner.plain_bass = plain->flag();
    if (const auto phrasing = json.find("phrasing")) {
        manner.phrasing = phrasing->named(chart::find_phrasing);
    }
    return manner;
}

Json to_json(const chart::Stretch& stretch, int times) {
    Json json;
    json["bars"] = {stretch.passage.from, stretch.passage.to};
    if (times > 1) json["times"] = times;
    if (!stretch.name.empty()) json["name"] = stretch.name;
    if (stretch.manner != chart::AskedManner{}) json["manner"] = to_json(stretch.manner);
    if (stretch.silent) json["silent"] = true;
    if (stretch.until_cue) json["until_cue"] = true;
    if (stretch.rit > 0) json["rit"] = stretch.rit;
    if (stretch.a_tempo) json["a_tempo"] = true;
    return json;
}

/// Times through that are alike, one after the other, are one item.
Json to_json(const chart::Way& way) {
    Json json = Json::array();
    for (auto from = way.stretches.begin(); from != way.stretches.end();) {
        const auto to = std::find_if(from, way.stretches.end(),
                                     [&](const chart::Stretch& s) { return s != *from; });
        json.push_back(to_json(*from, static_cast<int>(to - from)));
        from = to;
    }
    return json;
}

chart::Stretch read_stretch(const JsonValue& json) {
    chart::Stretch stretch;
    stretch.passage = read_bars(json.at("bars"));
    if (const auto name = json.find("name")) stretch.name = name->text();
    if (const auto manner = json.find("manner")) stretch.manner = read_manner(*manner);
    if (const auto silent = json.find("silent")) stretch.silent = silent->flag();
    if (const auto cue = json.find("until_cue")) stretch.until_cue = cue->flag();
    if (const auto rit = json.find("rit")) stretch.rit = rit->count(1, stretch.passage.bars());
    if (const auto tempo = json.find("a_tempo")) stretch.a_tempo = tempo->flag();
    return stretch;
}

Json to_json(const roadmap::Click& click) {
    Json json;
    json["ticks"] = Json::array();
    for (const auto at : click.positions) json["ticks"].push_back(at.count());
    if (click.every != 1) json["every"] = click.every;
    return json;
}

roadmap::Click read_click(const JsonValue& json) {
    roadmap::Click click;
    for (const auto& at : json.at("ticks").items()) {
        click.positions.emplace_back(at.whole(0, furthest_tick));
    }
    if (click.positions.empty()) json.at("ticks").refuse("a position at least");
    if (const auto every = json.find("every")) click.every = every->count(1, most_apart);
    return click;
}

Json to_json(const roadmap::Silence& silence) {
    Json json = {{"playing", silence.playing}, {"silent", silence.silent}};
    if (silence.drums_alone) json["drums_alone"] = true;
    if (silence.times_through) json["times_through"] = true;
    return json;
}

roadmap::Silence read_silence(const JsonValue& json) {
    roadmap::Silence silence{json.at("playing").count(1, most_apart),
                             json.at("silent").count(1, most_apart)};
    if (const auto alone = json.find("drums_alone")) silence.drums_alone = alone->flag();
    if (const auto times = json.find("times_through")) silence.times_through = times->flag();
    return silence;
}

roadmap::AskedLadder read_ladder(const JsonValue& json) {
    const auto tempi = json.items();
    if (tempi.size() != 2) json.refuse("the slowest tempo and the fastest");
    const auto tempo = [&](const JsonValue& item) {
        return time::Bpm(item.number(chart::slowest_bpm, chart::fastest_bpm));
    };
    const roadmap::AskedLadder ladder{tempo(tempi[0]), tempo(tempi[1])};
    if (ladder.from > ladder.to) json.refuse("the slowest tempo first");
    return ladder;
}

}  // namespace

chart::Passage read_bars(const JsonValue& json) {
    constexpr int most = chart::most_bars_of_a_road_map;
    const auto bars = json.items();
    if (bars.size() != 2) json.refuse("the first bar and the last");
    const chart::Passage passage{bars[0].count(1, most), bars[1].count(1, most)};
    if (passage.from > passage.to) json.refuse("the first bar first");
    return passage;
}

void write_way(const chart::Way& way, Json& json) {
    json["way"] = to_json(way);
    if (way.goes_on) json["goes_on"] = true;
    if (way.held_ending) json["held_ending"] = true;
}

chart::Way read_way(const JsonValue& json) {
    chart::Way way;
    int left = chart::most_bars_of_a_road_map;
    for (const auto& item : json.at("way").items()) {
        const auto stretch = read_stretch(item);
        const auto times = item.find("times");
        const int here = times ? times->count(1, left) : 1;
        left -= std::min(left, here);
        way.stretches.insert(way.stretches.end(), static_cast<std::size_t>(here), stretch);
    }
    if (way.stretches.empty()) json.at("way").refuse("a time through at least");
    if (const auto goes_on = json.find("goes_on")) way.goes_on = goes_on->flag();
    if (const auto held = json.find("held_ending")) way.held_ending = held->flag();
    return way;
}

Json to_json(const roadmap::Asked& asked) {
    Json json;
    if (asked.tempo) json["tempo_bpm"] = asked.tempo->count();
    write_way(asked.way, json);
    if (asked.manner != chart::AskedManner{}) json["manner"] = to_json(asked.manner);
    if (asked.swing) json["swing"] = asked.swing->ratio ? Json(*asked.swing->ratio) : Json("auto");
    if (asked.count_in_bars) json["count_in_bars"] = *asked.count_in_bars;
    if (asked.click) json["click"] = to_json(*asked.click);
    if (asked.silence) json["silence"] = to_json(*asked.silence);
    if (asked.ladder) json["ladder_bpm"] = {asked.ladder->from.count(), asked.ladder->to.count()};
    return json;
}

roadmap::Asked read_asked(const JsonValue& json) {
    roadmap::Asked asked;
    asked.tempo.emplace(json.at("tempo_bpm").number(chart::slowest_bpm, chart::fastest_bpm));
    asked.way = read_way(json);
    if (const auto manner = json.find("manner")) asked.manner = read_manner(*manner);
    if (const auto swing = json.find("swing")) {
        asked.swing.emplace();
        if (!swing->is("auto")) asked.swing->ratio = swing->number(1, 3);
    }
    if (const auto bars = json.find("count_in_bars")) asked.count_in_bars = bars->count(0, 2);
    if (const auto click = json.find("click")) asked.click = read_click(*click);
    if (const auto silence = json.find("silence")) asked.silence = read_silence(*silence);
    if (const auto ladder = json.find("ladder_bpm")) asked.ladder = read_ladder(*ladder);
    return asked;
}

}  // namespace compline::practice
