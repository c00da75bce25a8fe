#include "decision_json.hpp"

#include "asked_json.hpp"

#include <fmt/format.h>

#include <array>
#include <optional>
#include <string_view>

namespace compline::practice {

namespace {

using Json = nlohmann::ordered_json;
using roadmap::LadderStep;
using roadmap::WhoPlays;

struct NamedPlayer {
    const char* name;
    bool WhoPlays::*plays;
};

constexpr std::array<NamedPlayer, 4> everybody{{{"drums", &WhoPlays::drums},
                                                {"bass", &WhoPlays::bass},
                                                {"melody", &WhoPlays::melody},
                                                {"guitar", &WhoPlays::guitar}}};

Json to_json(const WhoPlays& who) {
    Json json = Json::array();
    for (const auto& player : everybody) {
        if (who.*player.plays) json.push_back(player.name);
    }
    return json;
}

WhoPlays read_players_named(const JsonValue& json) {
    WhoPlays who;
    for (const auto& item : json.items()) {
        bool known = false;
        for (const auto& player : everybody) {
            if (!item.is(player.name)) continue;
            who.*player.plays = known = true;
        }
        if (!known) item.refuse("drums, bass, melody or guitar");
    }
    return who;
}

Json to_json(const LadderStep& step) {
    Json json = {{"time_through", step.time_through},
                 {"tempo_bpm", step.tempo.count()},
                 {"judged", roadmap::name_of(step.judged)},
                 {"due", step.due},
                 {"struck", step.struck},
                 {"right", step.right},
                 {"next", roadmap::name_of(step.next)},
                 {"next_bpm", step.next_tempo.count()}};
    if (step.above) json["above_bpm"] = step.above->count();
    return json;
}

/// One of so many, by its name.
template <typename Value, int count>
std::optional<Value> find_named(std::string_view name) {
    for (int i = 0; i < count; ++i) {
        if (roadmap::name_of(static_cast<Value>(i)) == name) return static_cast<Value>(i);
    }
    return std::nullopt;
}

LadderStep read_ladder_step(const JsonValue& json) {
    constexpr int most_times_through = roadmap::furthest_decision;
    constexpr int most_changes = 1'000'000;
    const auto read_tempo = [](const JsonValue& value) {
        return time::Bpm(value.number(chart::slowest_bpm, chart::fastest_bpm));
    };
    LadderStep step;
    step.time_through = json.at("time_through").count(1, most_times_through);
    step.tempo = read_tempo(json.at("tempo_bpm"));
    step.judged = json.at("judged").named(find_named<LadderStep::Judged, 4>);
    step.due = json.at("due").count(0, most_changes);
    step.struck = json.at("struck").count(0, step.due);
    step.right = json.at("right").count(0, step.struck);
    step.next = json.at("next").named(find_named<LadderStep::Next, 5>);
    step.next_tempo = read_tempo(json.at("next_bpm"));
    if (const auto above = json.find("above_bpm")) step.above = read_tempo(*above);
    return step;
}

/// What a decision says, written into its text.
struct Write {
    Json& json;

    void operator()(const roadmap::NewTempo& tempo) const {
        json["tempo_bpm"] = tempo.tempo.count();
    }
    void operator()(const roadmap::LaysOut& lays) const {
        json[lays.out ? "lays_out" : "is_back"] = to_json(lays.who);
    }
    void operator()(const roadmap::NewWay& way) const { write_way(way.way, json); }
    void operator()(const roadmap::Paused&) const { json["paused"] = true; }
    void operator()(const roadmap::Waited& waited) const {
        json["waited_beats"] = waited.beats;
        write_way(waited.way, json);
    }
    void operator()(const roadmap::Stopped&) const { json["stopped"] = true; }
    void operator()(const roadmap::LadderStep& step) const { json["ladder"] = to_json(step); }
};

/// What is only said when it is so.
void read_true(const JsonValue& json) {
    if (!json.flag()) json.refuse("true");
}

decltype(roadmap::Decision::what) read_what(const JsonValue& json) {
    if (const auto tempo = json.find("tempo_bpm")) {
        return roadmap::NewTempo{time::Bpm(tempo->number(chart::slowest_bpm, chart::fastest_bpm))};
    }
    if (const auto out = json.find("lays_out")) {
        return roadmap::LaysOut{read_players_named(*out), true};
    }
    if (const auto back = json.find("is_back")) {
        return roadmap::LaysOut{read_players_named(*back), false};
    }
    if (const auto alone = json.find("left_alone")) {  // as takes said it of the whole band
        return roadmap::LaysOut{roadmap::everybody, alone->flag()};
    }
    if (const auto beats = json.find("waited_beats")) {
        return roadmap::Waited{beats->count(1, roadmap::longest_wait), read_way(json)};
    }
    if (const auto step = json.find("ladder")) return read_ladder_step(*step);
    if (json.find("way")) return roadmap::NewWay{read_way(json)};
    if (const auto paused = json.find("paused")) {
        read_true(*paused);
        return roadmap::Paused{};
    }
    read_true(json.at("stopped"));
    return roadmap::Stopped{};
}

}  // namespace

Json to_json(const roadmap::Decision& decision) {
    Json json = {{"from_bar", decision.from_bar}};
    std::visit(Write{json}, decision.what);
    return json;
}

roadmap::Decision read_decision(const JsonValue& json) {
    const auto from_bar = json.at("from_bar").whole(1, roadmap::furthest_decision + 1);
    return {from_bar,
            text::read_at(fmt::format("from bar {}", from_bar), [&] { return read_what(json); })};
}

}  // namespace compline::practice
