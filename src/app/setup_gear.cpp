#include "setup_gear.hpp"

#include "calibration.hpp"
#include "quick_chart.hpp"
#include "setup_steps.hpp"

#include <compline/chart/form.hpp>
#include <compline/live/clock.hpp>
#include <compline/live/device_choice.hpp>
#include <compline/live/gear.hpp>
#include <compline/live/midi_port.hpp>
#include <compline/live/rig.hpp>
#include <compline/practice/progress.hpp>
#include <compline/text/numbers.hpp>

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>
#include <utility>

namespace compline::app {

namespace {

using time::Seconds;

/// Short enough for a string to be shown while it rings.
constexpr Seconds between_reads{0.01};

/// A port whose messages are timed by the moments at which they came.
class PortEar : public Ear {
  public:
    explicit PortEar(live::MidiPort port)
        : port_(std::move(port)), opened_(live::steady_clock().now()) {}

    void read(std::vector<midi::TimedMessage>& into) override {
        arrivals_.clear();
        port_.source->read(arrivals_);
        for (const auto& arrival : arrivals_) {
            into.push_back({arrival.moment - opened_, arrival.message});
        }
    }
    [[nodiscard]] Seconds now() const override { return live::steady_clock().now() - opened_; }

  private:
    live::MidiPort port_;
    time::Instant opened_;
    std::vector<listen::Arrival> arrivals_;
};

/// All of the band at once.
band::Stage quieter(double decibels) {
    band::Stage stage;
    const auto gain = static_cast<float>(std::pow(10, -decibels / 20));
    for (auto& seat : stage.seats) seat.gain = gain;
    return stage;
}

roadmap::RoadMap four_bars() {
    auto form = chart::unroll(chart_of_changes(first_changes));
    auto asked = roadmap::Asked::of(form.whole(), 1);
    asked.count_in_bars = 0;
    return {std::move(form), asked};
}

/// As compline calibrate would be asked, with what was answered so far.
CalibrationOptions calibration_of(const SetupAnswers& answers) {
    const auto given = [&](const char* key) { return AsGiven{answers.now(key), key}; };
    const auto number = [&](const char* key) {
        const auto text = answers.now(key);
        return text.empty() ? std::nullopt : text::read_count(text);
    };
    CalibrationOptions options;
    options.out = given("out");
    options.in = given("in");
    options.sound_in = given("sound-in");
    options.rate = number("rate");
    options.period = number("period");
    options.pickup = given("midi-pickup");
    options.guitar.tuning = given("tuning");
    options.guitar.capo = given("capo");
    options.guitar.frets = given("frets");
    return options;
}

class RealGear : public SetupGear {
  public:
    live::AudioOutputs outputs() override { return live::audio_outputs(); }
    live::MidiInputs inputs() override { return live::midi_inputs(); }
    live::SoundInputs sound_inputs() override { return live::sound_inputs(); }

    std::unique_ptr<Ear> listen_to(const live::MidiInput& input) override {
        return std::make_unique<PortEar>(live::open_input(input, ""));
    }

    void play_four_bars(const live::AudioOutput& output, double decibels_below,
                        Talk& talk) override {
        const auto map = four_bars();
        live::GearChoice choice;
        choice.output = output;
        live::Rig rig(live::open_gear(choice, {}), map, {}, quieter(decibels_below));
        rig.start();
        while (!talk.ended() && !practice::is_finished(map, rig.now())) {
            if (talk.line_within(between_reads)) return;
            (void)rig.listen();
            if (const auto trouble = rig.trouble(); !trouble.empty()) {
                throw std::runtime_error(trouble);
            }
        }
    }

    std::optional<DelaysMeasured> measure_delays(const std::string& way,
                                                 const SetupAnswers& answers) override {
        const auto found = calibrate(way, calibration_of(answers));
        if (!found) return std::nullopt;
        DelaysMeasured measured{found->words, {}};
        for (const auto& [key, value, of_guitar] : found->keep) {
            measured.keep.emplace_back(key, value);
        }
        return measured;
    }
};

}  // namespace

std::unique_ptr<SetupGear> real_gear() { return std::make_unique<RealGear>(); }

std::optional<std::string> listen_until(Ear& ear, Talk& talk, Seconds at_most, const Enough& enough,
                                        std::vector<midi::TimedMessage>& heard) {
    ear.read(heard);
    heard.clear();
    const auto begin = ear.now();
    while (ear.now() - begin < at_most) {
        if (auto line = talk.line_within(between_reads)) return line;
        if (talk.ended()) return std::nullopt;
        ear.read(heard);
        if (enough(heard, ear.now())) break;
    }
    return std::string();
}

}  // namespace compline::app
