#include "asked_json.hpp"
#include "band_json.hpp"
#include "decision_json.hpp"
#include "guitar_json.hpp"
#include "take_text_1.hpp"

#include <compline/listen/pickup_words.hpp>
#include <compline/listen/string_offsets.hpp>
#include <compline/practice/known_round_trip.hpp>
#include <compline/practice/pedal.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <string_view>

namespace compline::practice {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view any_schema = "compline.take/";
constexpr const char* schema_1 = "compline.take/1";
constexpr const char* schema_2 = "compline.take/2";
constexpr const char* place = "the take's text";

/// Names of devices are whatever bytes their makers chose.
std::string dumped(const Json& json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

/// Reads JSON; what is wrong in it is named with its place.
template <typename Read>
auto read_json(std::string_view text, Read read) {
    return text::read_at(place, [&] {
        nlohmann::json json;
        try {
            json = nlohmann::json::parse(text);
        } catch (const nlohmann::json::parse_error& error) {
            throw text::bad_byte(error.byte, "it is damaged", "no JSON goes on like that");
        } catch (const nlohmann::json::out_of_range&) {
            throw text::BadInput("", "it is damaged", "a number in it is too large");
        }
        return read(JsonValue(json, ""));
    });
}

Json to_json(const Machine& machine) {
    Json json = {{"output", machine.output},
                 {"input", machine.input},
                 {"rate_hz", machine.rate_hz},
                 {"period_frames", machine.period_frames},
                 {"latency_ms", machine.latency_ms},
                 {"worst_callback_ms", machine.worst_callback_ms},
                 {"xruns", machine.xruns},
                 {"dropped_events", machine.dropped_events},
                 {"late_strokes", machine.late_strokes},
                 {"garbled_bytes", machine.unreadable_bytes}};
    if (machine.round_trip_ms) json["round_trip_ms"] = *machine.round_trip_ms;
    return json;
}

Json to_json(const listen::Delay& delay) {
    Json json = {{"constant_ms", delay.constant.milliseconds()}, {"cycles", delay.cycles}};
    for (const auto& string : delay.by_string) {
        json["by_string_ms"].push_back(string.milliseconds());
    }
    return json;
}

Json to_json(const assess::Settings& settings) {
    Json json = {{"strictness", harmony::name_of(settings.strictness)},
                 {"against", assess::name_of(settings.against)}};
    if (settings.rhythm) json["rhythm"] = settings.rhythm->name();
    if (settings.rhythm && settings.rhythm->meter.is_compound()) json["counts_eighths"] = true;
    if (settings.tolerance) json["tolerance_ms"] = settings.tolerance->milliseconds();
    if (!settings.pushes) json["pushes"] = false;
    return json;
}

/// "pedal": among the guitar's messages; "pedal_in": by a port of its own.
PedalSaid read_pedal_said(const JsonValue& json) {
    PedalSaid said;
    for (const bool own_port : {false, true}) {
        const auto words = json.find(own_port ? "pedal_in" : "pedal");
        if (!words) continue;
        words->read([](const std::string& text) { return Pedal(text); });
        said = {words->text(), own_port};
    }
    return said;
}

TakeInfo read_info_2(const JsonValue& json) {
    TakeInfo info;
    if (const auto program = json.find("program")) info.program = program->text();
    if (const auto made = json.find("made")) info.made = made->text();
    info.rules = json.at("rules").count(1, Machine::most);
    info.asked = read_asked(json.at("asked"));
    info.players = read_players(json.at("band"));
    info.asked.melody = !info.players.melody.empty();
    info.stage = read_stage(json.at("stage"));
    if (const auto voicings = json.find("voicings")) info.voicings = voicings->text();
    if (const auto guitar = json.find("guitar")) info.fretboard = read_guitar(*guitar);
    if (const auto player = json.find("player")) info.player = player->text();
    if (const auto heard = json.find("heard")) info.heard = heard->named(listen::read_heard_by);
    info.pickup = read_pickup_words(json);
    info.pedal = read_pedal_said(json);
    info.delay = read_delay(json.at("calibration"));
    info.settings = read_settings(json.at("settings"));
    if (const auto key = json.find("key")) info.key = key->text();
    info.chart_hash = json.at("chart_hash").text();
    info.chart_text = json.at("chart").text();
    return info;
}

}  // namespace

listen::Delay read_delay(const JsonValue& json) {
    constexpr double longest_ms = 1000;
    constexpr double most_cycles = 20;
    listen::Delay delay{
        time::from_milliseconds(json.at("constant_ms").number(-longest_ms, longest_ms)),
        json.at("cycles").number(0, most_cycles)};
    const auto by_string = json.find("by_string_ms");
    if (!by_string) return delay;
    constexpr double furthest = listen::furthest_string_offset_ms;
    const auto strings = by_string->items();
    if (strings.size() > guitar::most_strings) by_string->refuse("8 strings at most");
    for (const auto& string : strings) {
        delay.by_string.push_back(time::from_milliseconds(string.number(-furthest, furthest)));
    }
    return delay;
}

std::string read_pickup_words(const JsonValue& json) {
    const auto words = json.find("midi_pickup");
    if (!words) return "";
    words->read([](const std::string& text) {
        listen::PickupSettings checked;
        listen::read_pickup(text, checked);
    });
    return words->text();
}

assess::Settings read_settings(const JsonValue& json) {
    constexpr int most_beats = 16;  // whether the chart's bars have them is asked beside the chart
    assess::Settings settings;
    const auto eighths = json.find("counts_eighths");
    const auto meter =
        eighths && eighths->flag() ? *time::Meter::find(12, 8) : time::Meter(most_beats);
    if (const auto rhythm = json.find("rhythm")) {
        settings.rhythm = rhythm->read(
            [&](const std::string& words) { return assess::read_rhythm(words, meter); });
    }
    settings.strictness = json.at("strictness").named(harmony::read_strictness);
    if (const auto against = json.find("against")) {
        settings.against = against->named(assess::read_against);
    }
    if (const auto tolerance = json.find("tolerance_ms")) {
        settings.tolerance = time::from_milliseconds(
            tolerance->number(assess::narrowest_tolerance_ms, assess::widest_tolerance_ms));
    }
    if (const auto pushes = json.find("pushes")) settings.pushes = pushes->flag();
    return settings;
}

Machine read_machine(const JsonValue& json) {
    const auto number = [&](const char* key) {
        return json.at(key).count(-Machine::most, Machine::most);
    };
    const auto milliseconds = [&](const char* key) { return json.at(key).number(-1e9, 1e9); };
    Machine machine;
    machine.output = json.at("output").text();
    machine.input = json.at("input").text();
    machine.rate_hz = number("rate_hz");
    machine.period_frames = number("period_frames");
    machine.latency_ms = milliseconds("latency_ms");
    machine.worst_callback_ms = milliseconds("worst_callback_ms");
    machine.xruns = number("xruns");
    machine.dropped_events = number("dropped_events");
    machine.late_strokes = number("late_strokes");
    // The first takes do not say.
    if (json.find("garbled_bytes")) machine.unreadable_bytes = number("garbled_bytes");
    if (const auto trip = json.find("round_trip_ms")) {
        machine.round_trip_ms = trip->number(0, longest_round_trip_ms);
    }
    return machine;
}

std::string to_text(const TakeInfo& info) {
    Json json;
    json["schema"] = schema_2;
    if (!info.program.empty()) json["program"] = info.program;
    json["rules"] = info.rules;
    if (!info.made.empty()) json["made"] = info.made;
    json["asked"] = to_json(info.asked);
    json["band"] = to_json(info.players);
    json["stage"] = to_json(info.stage);
    if (!info.voicings.empty()) json["voicings"] = info.voicings;
    if (!(info.fretboard == guitar::Fretboard::standard()))
        json["guitar"] = to_json(info.fretboard);
    if (!info.player.empty()) json["player"] = info.player;
    if (info.heard != HeardBy::midi) json["heard"] = listen::name_of(info.heard);
    if (!info.pickup.empty()) json["midi_pickup"] = info.pickup;
    if (!info.pedal.words.empty()) {
        json[info.pedal.own_port ? "pedal_in" : "pedal"] = info.pedal.words;
    }
    json["calibration"] = to_json(info.delay);
    json["settings"] = to_json(info.settings);
    if (!info.key.empty()) json["key"] = info.key;
    json["chart_hash"] = info.chart_hash;
    json["chart"] = info.chart_text;
    return dumped(json);
}

std::optional<TakeInfo> read_info(const std::string& text) {
    if (text.find(any_schema) == std::string::npos) return std::nullopt;
    return read_json(text, [](const JsonValue& json) -> std::optional<TakeInfo> {
        const auto schema = json.at("schema");
        if (schema.is(schema_1)) return read_info_1(json);
        if (schema.is(schema_2)) return read_info_2(json);
        throw text::BadInput("", fmt::format("it is a {}", text::printable(schema.text())),
                             fmt::format("this version reads {} and {}: a later one may read it",
                                         schema_1, schema_2));
    });
}

std::string to_text(const roadmap::Decision& decision) {
    return decision_text + dumped(to_json(decision));
}

roadmap::Decision read_decision(const std::string& text) {
    const auto body = std::string_view(text).substr(std::string_view(decision_text).size());
    return read_json(body, [](const JsonValue& json) { return read_decision(json); });
}

std::string end_to_text(const std::optional<Machine>& machine) {
    return end_text + dumped(machine ? to_json(*machine) : Json::object());
}

std::optional<Machine> read_end(const std::string& text) {
    const auto body = std::string_view(text).substr(std::string_view(end_text).size());
    return read_json(body, [](const JsonValue& json) -> std::optional<Machine> {
        if (!json.find("output")) return std::nullopt;
        return read_machine(json);
    });
}

}  // namespace compline::practice
