#pragma once

#include <compline/guitar/shape.hpp>
#include <compline/midi/message.hpp>
#include <compline/time/units.hpp>

#include <array>
#include <optional>
#include <vector>

namespace compline::month {

/// The strings of a guitar with a MIDI pickup, channel 1 for string 1: what is struck and damped
/// becomes messages, exact ones, that wait until it is their time.
class PickupStrings {
  public:
    /// From the lowest string on. What rings is lifted a moment before.
    void strike(time::Seconds at, const guitar::Shape& shape, int velocity);
    void damp(time::Seconds at);
    /// Each once, in order of time.
    [[nodiscard]] std::vector<midi::TimedMessage> sent_until(time::Seconds now);

  private:
    void send(time::Seconds at, const midi::Message& message);

    std::array<std::optional<int>, guitar::most_strings> sounding_;
    std::vector<midi::TimedMessage> waiting_;
};

}  // namespace compline::month
