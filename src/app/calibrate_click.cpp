#include "calibration.hpp"
#include "calibration_gear.hpp"
#include "calibration_notes.hpp"
#include "command.hpp"

#include <compline/listen/pickup_words.hpp>
#include <compline/listen/string_offsets.hpp>
#include <compline/practice/click_delay.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace compline::app {

namespace {

using practice::ClickDelay;

nlohmann::ordered_json json_of(const ClickDelay& found) {
    nlohmann::ordered_json json = {{"way", name_of(CalibrationWay::click)},
                                   {"known", found.is_known()},
                                   {"strings", nlohmann::ordered_json::array()},
                                   {"used", found.used},
                                   {"left_out", found.left_out},
                                   {"sum_ms", nullptr}};
    if (!found.is_known()) return json;
    json["sum_ms"] = found.sum.milliseconds();
    for (const auto& string : found.strings) {
        json["strings"].push_back({{"string", string.string},
                                   {"notes", string.notes},
                                   {"behind_ms", string.behind.milliseconds()},
                                   {"difference_ms", string.difference.milliseconds()},
                                   {"remains_ms", string.remains.milliseconds()},
                                   {"error_ms", string.error.milliseconds()}});
    }
    return json;
}

/// All beats from the first bar on, as far as it went.
std::vector<time::Seconds> clicks_of(const roadmap::RoadMap& map, time::Seconds until) {
    constexpr int beats = 4;
    std::vector<time::Seconds> clicks;
    for (std::int64_t bar = 1; map.time_of(map.bar(bar).start) < until; ++bar) {
        for (int beat = 0; beat < beats; ++beat) {
            clicks.push_back(
                map.time_of(map.bar(bar).start + time::Ticks(beat * time::quarter_note.count())));
        }
    }
    return clicks;
}

}  // namespace

std::optional<Calibration> calibrate_by_click(const CalibrationOptions& options) {
    NotesBeingPlayed playing(options, NotesBeingPlayed::Band::click);
    say(fmt::format("{}; listening to {}", playing.rig().machine().output,
                    playing.rig().machine().input));
    say_as_is(fmt::format(
        "Play single notes, one on each click, {} on each string, one string after the\n"
        "other, the low one first. Enter ends it, q leaves it.\n",
        NotesBeingPlayed::notes_on_each(options, NotesBeingPlayed::Band::click)));
    if (!playing.collect()) return std::nullopt;
    const auto strings = playing.strings();
    const double cycles = listen::live_delay(time::Seconds(0), {}, options.pickup.text).cycles;
    const auto found = practice::measure_on_clicks(
        clicks_of(playing.rig().map(), playing.rig().now()), playing.notes(), strings, cycles);
    Calibration result;
    result.words = practice::in_words(found);
    result.json = json_of(found).dump(2);
    if (!found.is_known()) return result;
    const auto sure = [](const auto& string) {
        return string.is_sure() ? string.remains : time::Seconds(0);
    };
    result.keep = {
        {"string-offsets", listen::string_offsets_in_words(found_by_string(found.strings, sure))},
        {"midi-pickup",
         listen::with_pickup_word(options.pickup.text, "cycles", fmt::format("{:.2f}", cycles))}};
    return result;
}

}  // namespace compline::app
