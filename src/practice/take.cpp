#include <compline/practice/take.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

namespace compline::practice {

using time::Seconds;

namespace {

constexpr const char* schema = "compline.take/1";

midi::Track conductor(const std::optional<TakeInfo>& info, time::Bpm tempo, time::Meter meter,
                      std::int64_t start) {
    midi::Track track;
    track.add(0, midi::tempo_event(tempo));
    track.add(0, midi::time_signature_event(meter.beats(), 4));
    if (info) track.add(0, midi::text_event(midi::meta::text, to_text(*info)));
    track.add(start, midi::text_event(midi::meta::marker, start_marker));
    return track;
}

struct NotOurs {};

/// More bars than a day holds at 400 bpm.
constexpr int most_times_through = 200000;

/// A whole number within reason: a cast of anything else would be undefined, or another number.
int whole(const nlohmann::json& json) {
    constexpr int most = Machine::most;
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

chart::Passage read_bars(const nlohmann::json& json) {
    return {whole(json.at(0)), whole(json.at(1))};
}

nlohmann::ordered_json to_json(const chart::Route& route) {
    auto json = nlohmann::ordered_json::array();
    for (const auto& stretch : route.stretches) {
        nlohmann::ordered_json one;
        one["bars"] = {stretch.passage.from, stretch.passage.to};
        if (!stretch.name.empty()) one["name"] = stretch.name;
        // Of the manner only what moves the off-beats: the rest is not judged by.
        if (stretch.manner.feel) one["feel"] = chart::name_of(*stretch.manner.feel);
        if (stretch.manner.drums) one["drums"] = chart::name_of(*stretch.manner.drums);
        json.push_back(std::move(one));
    }
    return json;
}

chart::Route read_route(const nlohmann::json& json) {
    if (!json.is_array() || json.empty()) throw NotOurs{};
    chart::Route route;
    for (const auto& one : json) {
        chart::Stretch stretch{read_bars(one.at("bars")), one.value("name", ""), {}};
        if (one.contains("feel")) {
            stretch.manner.feel = chart::find_feel(one.at("feel").get<std::string>());
            if (!stretch.manner.feel) throw NotOurs{};
        }
        if (one.contains("drums")) {
            stretch.manner.drums = chart::find_drums(one.at("drums").get<std::string>());
            if (!stretch.manner.drums) throw NotOurs{};
        }
        route.stretches.push_back(std::move(stretch));
    }
    return route;
}

nlohmann::ordered_json to_json(const Machine& machine) {
    return {{"output", machine.output},
            {"input", machine.input},
            {"rate_hz", machine.rate_hz},
            {"period_frames", machine.period_frames},
            {"latency_ms", machine.latency_ms},
            {"worst_callback_ms", machine.worst_callback_ms},
            {"xruns", machine.xruns},
            {"dropped_events", machine.dropped_events},
            {"late_strokes", machine.late_strokes},
            {"garbled_bytes", machine.unreadable_bytes}};
}

Machine read_machine(const nlohmann::json& json) {
    Machine machine;
    machine.output = json.at("output").get<std::string>();
    machine.input = json.at("input").get<std::string>();
    machine.rate_hz = whole(json.at("rate_hz"));
    machine.period_frames = whole(json.at("period_frames"));
    machine.latency_ms = json.at("latency_ms").get<double>();
    machine.worst_callback_ms = json.at("worst_callback_ms").get<double>();
    machine.xruns = whole(json.at("xruns"));
    machine.dropped_events = whole(json.at("dropped_events"));
    machine.late_strokes = whole(json.at("late_strokes"));
    // Takes of earlier versions do not say.
    if (json.contains("garbled_bytes")) machine.unreadable_bytes = whole(json.at("garbled_bytes"));
    return machine;
}

}  // namespace

bool TakeInfo::operator==(const TakeInfo& o) const { return to_text(*this) == to_text(o); }

namespace {

/// Seconds to the ticks of a take's file. Its tempo is in whole microseconds; ticks are counted by
/// that, so that times come back as they were.
class TakeTicks {
  public:
    TakeTicks(time::Bpm tempo, Seconds lead)
        : seconds_per_tick_(std::round(60e6 / tempo.count()) / 1e6 / take_division), lead_(lead) {}
    [[nodiscard]] std::int64_t operator()(Seconds t) const {
        return std::llround(std::max((t + lead_).count(), 0.0) / seconds_per_tick_);
    }

  private:
    double seconds_per_tick_;
    Seconds lead_;
};

/// Where events must stand so that none is further from the one before than a file can say: hours
/// of silence are possible.
template <typename Add>
void bridge(std::int64_t from, std::int64_t to, const Add& add) {
    for (; to - from > midi::most_ticks_apart; from += midi::most_ticks_apart) {
        add(from + midi::most_ticks_apart, midi::text_event(midi::meta::text, listening_text));
    }
}

void add_bridged(midi::Track& track, std::int64_t tick, midi::Event event) {
    bridge(track.end, tick, [&](std::int64_t at, midi::Event e) { track.add(at, std::move(e)); });
    track.add(tick, std::move(event));
}

midi::Track notes_of(const Take& take, const TakeTicks& ticks) {
    midi::Track track;
    auto interruption = take.interruptions.begin();
    const auto interruptions_until = [&](Seconds t) {
        for (; interruption != take.interruptions.end() && *interruption <= t; ++interruption) {
            add_bridged(track, std::max(track.end, ticks(*interruption)),
                        midi::text_event(midi::meta::text, interruption_text));
        }
    };
    for (const auto& timed : take.messages) {
        interruptions_until(timed.at);
        add_bridged(track, std::max(track.end, ticks(timed.at)), timed.message);
    }
    interruptions_until(take.end);
    const std::int64_t end = std::max(track.end, ticks(take.end));
    bridge(track.end, end, [&](std::int64_t at, midi::Event e) { track.add(at, std::move(e)); });
    track.end = end;
    return track;
}

midi::File file_with(midi::Track conductor_track, midi::Track notes) {
    midi::File file;
    file.format = 1;
    file.division = take_division;
    // The conductor's track ends at its marker: the notes alone tell how long the take is, also
    // when they were cut short.
    file.tracks.push_back(std::move(conductor_track));
    file.tracks.push_back(std::move(notes));
    return file;
}

}  // namespace

midi::File to_file(const Take& take, time::Bpm tempo, time::Meter meter, Seconds lead) {
    const TakeTicks ticks(tempo, lead);
    return file_with(conductor(take.info, tempo, meter, ticks(Seconds(0))), notes_of(take, ticks));
}

TakeFile::TakeFile(const std::filesystem::path& path, Opening opening, files::Access access)
    : opening_(std::move(opening)), access_(access), file_(path, access) {
    const TakeTicks ticks(opening_.tempo, opening_.lead);
    const auto file =
        file_with(conductor(opening_.info, opening_.tempo, opening_.meter, ticks(Seconds(0))), {});
    try {
        file_.append(midi::open_smf(file));
    } catch (const files::FileError&) {
        file_.remove();  // a take without a beginning is none
        throw;
    }
}

void TakeFile::add(const midi::TimedMessage& timed) { append(timed.at, timed.message); }

void TakeFile::add_interruption(Seconds at) {
    append(at, midi::text_event(midi::meta::text, interruption_text));
}

void TakeFile::listened_until(Seconds at) {
    append(at, midi::text_event(midi::meta::text, listening_text));
}

void TakeFile::append(Seconds at, const midi::Event& event) {
    const std::int64_t tick = std::max(tick_, TakeTicks(opening_.tempo, opening_.lead)(at));
    const auto put = [this](std::int64_t to, const midi::Event& e) {
        file_.append(midi::event_bytes(tick_, {to, e}));
        tick_ = to;
    };
    bridge(tick_, tick, put);
    put(tick, event);
}

std::vector<std::uint8_t> TakeFile::finish(const Take& take) {
    auto bytes = midi::write_smf(to_file(take, opening_.tempo, opening_.meter, opening_.lead));
    // Only our own file is replaced: the player may have put it away, and another there.
    const auto existing = file_.is_in_place() ? files::Existing::replace : files::Existing::keep;
    files::save_bytes(file_.path(), bytes, existing, access_);
    return bytes;
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
        if (text.type != midi::meta::text) continue;
        if (!take.info) take.info = read_info(text.text);
        if (text.text == interruption_text) take.interruptions.push_back(text.at);
    }
    take.messages = recording.messages;
    for (auto& timed : take.messages) timed.at = timed.at - zero;
    for (auto& at : take.interruptions) at = at - zero;
    take.end = recording.length - zero;
    return take;
}

std::string to_text(const TakeInfo& info) {
    nlohmann::ordered_json json;
    json["schema"] = schema;
    json["chart"] = info.chart_hash;
    json["tempo_bpm"] = info.tempo_bpm;
    const auto reach = info.route.reach();
    json["bars"] = {reach.from, reach.to};
    // What was to be played is no more than that, however long the recording went on: behind a held
    // ending the chord that rings would be taken for another time through (2026-11-29).
    const bool endless = info.route.goes_on;
    if (!info.cut_short || !endless) {
        json[info.cut_short ? "times_meant" : "times_through"] = info.route.stretches.size();
    }
    if (!info.route.is_uniform()) json["route"] = to_json(info.route);
    json["silent_bars"] = info.silent_bars;
    if (!info.feel.empty()) json["feel"] = info.feel;
    if (!info.drums.empty()) json["drums"] = info.drums;
    if (!info.swing.empty()) json["swing"] = info.swing;
    if (!info.placement.empty()) json["placement_ms"] = info.placement;
    if (!info.pickup.empty()) json["midi_pickup"] = info.pickup;
    json["calibration"] = {{"constant_ms", info.delay.constant.milliseconds()},
                           {"cycles", info.delay.cycles}};
    json["settings"] = {
        {"rhythm", info.rhythm}, {"strictness", info.strictness}, {"against", info.against}};
    if (info.tolerance_ms) json["settings"]["tolerance_ms"] = *info.tolerance_ms;
    if (info.machine) json["machine"] = to_json(*info.machine);
    // Names of devices are whatever bytes their makers chose.
    return json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::optional<TakeInfo> read_info(const std::string& text) {
    const auto json = nlohmann::json::parse(text, nullptr, false);
    if (!json.is_object() || json.value("schema", nlohmann::json()) != schema) return std::nullopt;
    try {
        TakeInfo info;
        info.chart_hash = json.at("chart").get<std::string>();
        info.tempo_bpm = json.at("tempo_bpm").get<double>();
        info.cut_short = !json.contains("times_through");
        const bool endless = info.cut_short && !json.contains("times_meant");
        const int times =
            endless ? 1 : whole(json.at(info.cut_short ? "times_meant" : "times_through"));
        if (json.contains("route")) {
            info.route = read_route(json.at("route"));
        } else {
            const auto bars = read_bars(json.at("bars"));
            // Of an impossible number nothing is made: whoever scores the take refuses it.
            if (times >= 1 && times <= most_times_through) {
                info.route = chart::Route::of(bars, endless ? std::nullopt : std::optional(times));
            }
        }
        info.feel = json.value("feel", "");
        info.drums = json.value("drums", "");
        info.swing = json.value("swing", "");
        info.placement = json.value("placement_ms", "");
        info.pickup = json.value("midi_pickup", "");
        info.silent_bars = whole_numbers(json.at("silent_bars"));
        info.delay.constant = time::from_milliseconds(json.at("calibration").at("constant_ms"));
        info.delay.cycles = json.at("calibration").at("cycles").get<double>();
        const auto& settings = json.at("settings");
        info.rhythm = settings.at("rhythm").get<std::string>();
        info.strictness = settings.at("strictness").get<std::string>();
        info.against = settings.value("against", info.against);
        if (settings.contains("tolerance_ms")) info.tolerance_ms = settings.at("tolerance_ms");
        if (json.contains("machine")) info.machine = read_machine(json.at("machine"));
        return info;
    } catch (const nlohmann::json::exception&) {
        return std::nullopt;
    } catch (const NotOurs&) {
        return std::nullopt;
    }
}

}  // namespace compline::practice
