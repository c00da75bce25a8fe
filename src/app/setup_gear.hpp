#pragma once

#include "questions.hpp"
#include "setup_answers.hpp"

#include <compline/live/devices.hpp>
#include <compline/midi/message.hpp>

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace compline::app {

/// A MIDI input that is listened to, for somebody to see what it sends.
class Ear {
  public:
    Ear() = default;
    virtual ~Ear() = default;
    Ear(const Ear&) = delete;
    Ear& operator=(const Ear&) = delete;

    /// What came since the last call, put behind; times count from when it was opened.
    virtual void read(std::vector<midi::TimedMessage>& into) = 0;
    [[nodiscard]] virtual time::Seconds now() const = 0;
};

/// What a way of measuring delays has found.
struct DelaysMeasured {
    std::string words;                                      ///< lines for the player
    std::vector<std::pair<std::string, std::string>> keep;  ///< keys of settings, and what they are
};

/// The devices as setting up uses them; passed in, so that a test's own make the whole path
/// without any.
class SetupGear {
  public:
    SetupGear() = default;
    virtual ~SetupGear() = default;
    SetupGear(const SetupGear&) = delete;
    SetupGear& operator=(const SetupGear&) = delete;

    [[nodiscard]] virtual live::AudioOutputs outputs() = 0;
    [[nodiscard]] virtual live::MidiInputs inputs() = 0;
    [[nodiscard]] virtual live::SoundInputs sound_inputs() = 0;
    /// Throws live::DeviceError.
    [[nodiscard]] virtual std::unique_ptr<Ear> listen_to(const live::MidiInput& input) = 0;
    /// Four bars of the band, so many decibels below its level, until they are over or a line is
    /// typed. Throws live::DeviceError; std::runtime_error where the output breaks down.
    virtual void play_four_bars(const live::AudioOutput& output, double decibels_below,
                                Talk& talk) = 0;
    /// By one of delay_ways(). None: it was stopped. Throws BadInput, live::DeviceError.
    [[nodiscard]] virtual std::optional<DelaysMeasured> measure_delays(
        const std::string& way, const SetupAnswers& answers) = 0;
};

/// The ways in which delays can be measured, the best first.
[[nodiscard]] const std::vector<std::string>& delay_ways();

/// Those of this machine.
[[nodiscard]] std::unique_ptr<SetupGear> real_gear();

/// What somebody waits for in what is heard.
using Enough = std::function<bool(const std::vector<midi::TimedMessage>& heard, time::Seconds now)>;

/// Listens until enough was heard, a line is typed, or so long. Gives the line; an empty one where
/// none was typed; none where nobody answers any more. What was heard before is forgotten.
[[nodiscard]] std::optional<std::string> listen_until(Ear& ear, Talk& talk, time::Seconds at_most,
                                                      const Enough& enough,
                                                      std::vector<midi::TimedMessage>& heard);

}  // namespace compline::app
