#include "calibration.hpp"
#include "calibration_gear.hpp"
#include "calibration_notes.hpp"
#include "command.hpp"

#include <compline/listen/pickup_words.hpp>
#include <compline/listen/string_offsets.hpp>
#include <compline/practice/pickup_delay.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace compline::app {

namespace {

using practice::PickupDelay;

nlohmann::ordered_json json_of(const PickupDelay& found) {
    nlohmann::ordered_json json = {{"way", name_of(CalibrationWay::guitar)},
                                   {"known", found.is_known()},
                                   {"constant_ms", nullptr},
                                   {"cycles", nullptr},
                                   {"strings", nlohmann::ordered_json::array()},
                                   {"used", found.used},
                                   {"left_out", found.left_out},
                                   {"sounds_alone", found.sounds_alone},
                                   {"notes_alone", found.notes_alone}};
    if (!found.is_known()) return json;
    json["constant_ms"] = found.common.constant.milliseconds();
    json["cycles"] = found.common.cycles;
    json["sd_ms"] = found.sd.milliseconds();
    json["sure_within_ms"] = found.sure_within.milliseconds();
    for (const auto& string : found.strings) {
        json["strings"].push_back({{"string", string.string},
                                   {"notes", string.notes},
                                   {"difference_ms", string.difference.milliseconds()},
                                   {"error_ms", string.error.milliseconds()}});
    }
    return json;
}

}  // namespace

std::optional<Calibration> calibrate_by_guitar(const CalibrationOptions& options) {
    NotesBeingPlayed playing(options, NotesBeingPlayed::Band::silent);
    say(fmt::format("{}; listening to {} and its sound", playing.rig().machine().output,
                    playing.rig().machine().input));
    say_as_is(
        "Play single clean notes, one string after the other: the open string and the\n"
        "twelfth fret in turn, soft and hard, the other strings damped. Enter ends it,\n"
        "q leaves it.\n");
    if (!playing.collect()) return std::nullopt;
    const auto strings = playing.strings();
    const auto pairs = practice::pair_up(playing.onsets(), playing.rig().ear()->rate(),
                                         playing.notes_in_the_stream());
    const auto found = practice::fit_pickup_delay(pairs, strings);
    Calibration result;
    result.words = practice::in_words(found);
    result.json = json_of(found).dump(2);
    if (!found.is_known()) return result;
    const auto offsets = listen::string_offsets_in_words(
        found_by_string(found.strings, [](const auto& string) { return string.difference; }));
    result.keep = {
        {"offset", fmt::format("{:.3f}", found.common.constant.milliseconds())},
        {"midi-pickup", listen::with_pickup_word(options.pickup.text, "cycles",
                                                 fmt::format("{:.2f}", found.common.cycles))},
        {"string-offsets", offsets}};
    return result;
}

}  // namespace compline::app
