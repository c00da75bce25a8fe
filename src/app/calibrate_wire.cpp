#include "calibration.hpp"
#include "calibration_gear.hpp"
#include "command.hpp"
#include "evening_gear.hpp"
#include "stop_signals.hpp"

#include <compline/live/audio_stream.hpp>
#include <compline/live/device_choice.hpp>
#include <compline/live/sound_probe.hpp>
#include <compline/practice/known_round_trip.hpp>
#include <compline/practice/round_trip.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <chrono>
#include <cmath>
#include <thread>

namespace compline::app {

namespace {

using practice::ClickTrain;
using practice::RoundTrip;

constexpr std::chrono::milliseconds between_clicks_seen{20};
constexpr std::chrono::seconds longest_silence{2};

std::unique_ptr<live::AudioStream> open(const CalibrationOptions& options) {
    const auto output = output_meant(options.out);
    auto request = options.stream();
    request.input = sound_meant(options.sound_in, output.api, "--sound-in");
    return live::open_output(output, request);
}

/// Plays the train to its end. False: it was stopped.
bool listen(live::AudioStream& stream, live::SoundProbe& probe, const ClickTrain& train) {
    WaitingLine line;
    stream.start(probe);
    std::size_t heard = 0;
    auto news = std::chrono::steady_clock::now();
    while (!probe.is_done()) {
        if (stop_was_asked()) return false;
        const auto now_heard = probe.heard().size();
        if (now_heard != heard) news = std::chrono::steady_clock::now();
        if (std::chrono::steady_clock::now() - news > longest_silence) {
            throw live::DeviceError(fmt::format("{} plays no more", stream.name()));
        }
        heard = now_heard;
        int played = 0;
        for (const auto& click : train.clicks()) {
            if (static_cast<std::size_t>(click.count()) < heard) ++played;
        }
        line.show(fmt::format("click {} of {}", played, train.clicks().size()));
        std::this_thread::sleep_for(between_clicks_seen);
    }
    return true;
}

/// What the system says itself, and whether there was a cable at all.
std::string beside(const RoundTrip& found, const live::AudioStream& stream) {
    auto words =
        fmt::format("The system says {:.3f} ms for the same.\n", stream.latency().milliseconds());
    const double periods = found.frames / stream.period();
    if (std::fabs(periods - std::round(periods)) * stream.period() < 0.05) {
        words += fmt::format(
            "That is {:.0f} period{} to the frame: not a cable, it seems, but a connection\n"
            "inside the computer. Converters take a little besides.\n",
            periods, std::lround(periods) == 1 ? "" : "s");
    }
    return words;
}

Calibration result_of(const RoundTrip& found, const live::AudioStream& stream, int interruptions) {
    Calibration result;
    result.words = practice::in_words(found);
    if (found.is_known()) {
        result.words += beside(found, stream);
        const practice::KnownRoundTrip known{
            found.delay(), practice::SoundPath{stream.rate().hz(), stream.period(), stream.name()}};
        result.keep.push_back({"round-trip", practice::in_words(known), false});
    }
    if (interruptions > 0) {
        result.words +=
            fmt::format("Sound was interrupted {}meanwhile.\n",
                        interruptions == 1 ? "" : fmt::format("{} times ", interruptions));
    }
    nlohmann::ordered_json json = {{"way", name_of(CalibrationWay::wire)},
                                   {"output", stream.name()},
                                   {"rate_hz", stream.rate().hz()},
                                   {"period_frames", stream.period()},
                                   {"known", found.is_known()},
                                   {"round_trip_frames", nullptr},
                                   {"round_trip_ms", nullptr},
                                   {"farthest_frames", found.farthest_frames},
                                   {"clicks", found.clicks},
                                   {"heard", found.heard},
                                   {"system_ms", stream.latency().milliseconds()}};
    if (found.is_known()) {
        json["round_trip_frames"] = found.frames;
        json["round_trip_ms"] = found.delay().milliseconds();
    }
    result.json = json.dump(2);
    return result;
}

}  // namespace

std::optional<Calibration> calibrate_by_wire(const CalibrationOptions& options) {
    const auto stream = open(options);
    practice::ClickTrainSettings settings;
    settings.level_db = options.level_db;
    settings.clicks = options.clicks;
    const ClickTrain train(stream->rate(), settings);
    live::SoundProbe probe(train.whole(), static_cast<std::size_t>(train.length().count()));
    say_as_is(practice::before_the_wire());
    say(fmt::format("{}, {} Hz, {} frames", stream->name(), stream->rate().hz(), stream->period()));
    if (!enter_pressed("Press Enter when the cable is in, q to leave it.")) return std::nullopt;
    if (!listen(*stream, probe, train)) return std::nullopt;
    return result_of(practice::measure_round_trip(train, probe.heard()), *stream,
                     probe.interruptions());
}

}  // namespace compline::app
