#include <compline/practice/take.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace compline::practice {

using time::Seconds;

namespace {

constexpr const char* schema = "compline.take/1";

midi::Track conductor(const Take& take, time::Bpm tempo, time::Meter meter, std::int64_t start) {
    midi::Track track;
    track.add(0, midi::tempo_event(tempo));
    track.add(0, midi::time_signature_event(meter.beats(), 4));
    if (take.info) track.add(0, midi::text_event(midi::meta::text, to_text(*take.info)));
    track.add(start, midi::text_event(midi::meta::marker, start_marker));
    return track;
}

struct NotOurs {};

/// A whole number within reason: a cast of anything else would be undefined, or another number.
int whole(const nlohmann::json& json) {
    constexpr int most = 1'000'000;
    if (!json.is_number_integer()) throw NotOurs{};
    if (json.is_number_unsigned() && json.get<std::uint64_t>() > most) throw NotOurs{};
    const auto number = json.get<std::int64_t>();
    if (number < -most || number > most) throw NotOurs{};
    return static_cast<int>(number);
}

std::vector<int> whole_numbers(const nlohmann::json& json) {
    if (!json.is_array()) throw NotOurs{};
    std::vector<int> numbers;
    for (const auto& one : json) numbers.push_back(whole(one));
    return numbers;
}

}  // namespace

bool TakeInfo::operator==(const TakeInfo& o) const { return to_text(*this) == to_text(o); }

midi::File to_file(const Take& take, time::Bpm tempo, time::Meter meter, Seconds lead) {
    // The file's tempo is in whole microseconds; ticks are counted by that, so that times come
    // back as they were.
    const double seconds_per_tick = std::round(60e6 / tempo.count()) / 1e6 / take_division;
    const auto tick = [&](Seconds t) {
        return std::llround(std::max((t + lead).count(), 0.0) / seconds_per_tick);
    };
    midi::File file;
    file.format = 1;
    file.division = take_division;
    file.tracks.push_back(conductor(take, tempo, meter, tick(Seconds(0))));
    midi::Track notes;
    for (const auto& timed : take.messages) {
        notes.add(tick(timed.at), timed.message);
    }
    notes.end = tick(take.end);
    if (!notes.events.empty()) notes.end = std::max(notes.end, notes.events.back().tick);
    // The conductor's track ends at its marker: the notes alone tell how long the take is, also
    // when they were cut short.
    file.tracks.push_back(std::move(notes));
    return file;
}

Take read_take(const midi::File& file) {
    const auto recording = midi::flatten(file);
    Take take;
    Seconds zero(0);
    for (const auto& text : recording.texts) {
        if (text.type == midi::meta::marker && text.text == start_marker && !take.marked) {
            zero = text.at;
            take.marked = true;
        }
        if (text.type == midi::meta::text && !take.info) take.info = read_info(text.text);
    }
    take.messages = recording.messages;
    for (auto& timed : take.messages) timed.at = timed.at - zero;
    take.end = recording.length - zero;
    return take;
}

std::string to_text(const TakeInfo& info) {
    nlohmann::ordered_json json;
    json["schema"] = schema;
    json["chart"] = info.chart_hash;
    json["tempo_bpm"] = info.tempo_bpm;
    json["bars"] = {info.passage.from, info.passage.to};
    json["times_through"] = info.times_through;
    json["silent_bars"] = info.silent_bars;
    json["calibration"] = {{"constant_ms", info.delay.constant.milliseconds()},
                           {"cycles", info.delay.cycles}};
    json["settings"] = {{"rhythm", info.rhythm}, {"strictness", info.strictness}};
    if (info.tolerance_ms) json["settings"]["tolerance_ms"] = *info.tolerance_ms;
    return json.dump();
}

std::optional<TakeInfo> read_info(const std::string& text) {
    const auto json = nlohmann::json::parse(text, nullptr, false);
    if (!json.is_object() || json.value("schema", nlohmann::json()) != schema) return std::nullopt;
    try {
        TakeInfo info;
        info.chart_hash = json.at("chart").get<std::string>();
        info.tempo_bpm = json.at("tempo_bpm").get<double>();
        info.passage = {whole(json.at("bars").at(0)), whole(json.at("bars").at(1))};
        info.times_through = whole(json.at("times_through"));
        info.silent_bars = whole_numbers(json.at("silent_bars"));
        info.delay.constant = time::from_milliseconds(json.at("calibration").at("constant_ms"));
        info.delay.cycles = json.at("calibration").at("cycles").get<double>();
        const auto& settings = json.at("settings");
        info.rhythm = settings.at("rhythm").get<std::string>();
        info.strictness = settings.at("strictness").get<std::string>();
        if (settings.contains("tolerance_ms")) info.tolerance_ms = settings.at("tolerance_ms");
        return info;
    } catch (const nlohmann::json::exception&) {
        return std::nullopt;
    } catch (const NotOurs&) {
        return std::nullopt;
    }
}

}  // namespace compline::practice
