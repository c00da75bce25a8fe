#pragma once

#include "../../src/app/setup_gear.hpp"

#include <compline/live/device_choice.hpp>

#include <fmt/format.h>

#include <deque>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace compline::tests {

/// What a guitarist plays, or a foot presses, each when it is listened for.
using Bursts = std::deque<std::vector<midi::Message>>;

/// A MIDI input in a time of its own, in which the next burst comes a while after the last.
class ScriptedEar : public app::Ear {
  public:
    explicit ScriptedEar(Bursts& bursts) : bursts_(bursts) {}

    void read(std::vector<midi::TimedMessage>& into) override {
        now_ += time::Seconds(0.05);
        if (bursts_.empty() || now_ < due_) return;
        for (const auto& message : bursts_.front()) into.push_back({now_, message});
        bursts_.pop_front();
        due_ = now_ + time::Seconds(0.8);
    }
    [[nodiscard]] time::Seconds now() const override { return now_; }

  private:
    Bursts& bursts_;
    time::Seconds now_{0};
    time::Seconds due_{0.2};
};

/// Devices that are none.
class ScriptedGear : public app::SetupGear {
  public:
    [[nodiscard]] live::AudioOutputs outputs() override { return outputs_there; }
    [[nodiscard]] live::MidiInputs inputs() override { return inputs_there; }
    [[nodiscard]] live::SoundInputs sound_inputs() override { return sounds_there; }
    [[nodiscard]] std::unique_ptr<app::Ear> listen_to(const live::MidiInput& input) override {
        done += "listens to " + input.name + "; ";
        return std::make_unique<ScriptedEar>(bursts);
    }
    void play_four_bars(const live::AudioOutput& output, double decibels_below,
                        app::Talk&) override {
        if (breaks_down) throw std::runtime_error(output.name + " plays no more");
        done += fmt::format("plays on {} at -{:g} dB; ", output.name, decibels_below);
    }

    std::optional<app::DelaysMeasured> measure_delays(const std::string& way,
                                                      const app::SetupAnswers&) override {
        done += "measures by " + way + "; ";
        if (cannot_measure) throw live::DeviceError("there is no sound input");
        return measured;
    }

    live::AudioOutputs outputs_there;
    live::MidiInputs inputs_there;
    live::SoundInputs sounds_there;
    Bursts bursts;
    bool breaks_down = false;
    bool cannot_measure = false;
    std::optional<app::DelaysMeasured> measured;
    std::string done;
};

}  // namespace compline::tests
