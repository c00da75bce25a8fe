#pragma once

#include <compline/practice/session.hpp>
#include <compline/practice/take.hpp>
#include <compline/practice/want.hpp>

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace compline::practice {

/// A MIDI pedal: which of its switches asks for what. Its messages come in, what the player asks
/// for goes out. No clock is read, so that a foot's whole evening passes in a test in a moment.
///
///     64=loop here, 67=pause, program 3=from the top, note 36=drums
///
/// A number alone is a controller, as pedals mostly send; `program` and `note` are the other two
/// that foot switches send. Numbers are those on the cable, 0 to 127, on any channel.
///
/// One press is one command, whatever the pedal is: a switch, one that sweeps through all values,
/// one whose contact bounces, one that trembles. So a controller is pressed from 64 on (MIDI 1.0:
/// on) and let go only below 48, and for 150 ms after a press nothing is another. A contact bounces
/// when it is let go too: what is pressed within 50 ms of that is none (common practice, no
/// source; no foot comes down again so soon).
class Pedal {
  public:
    static constexpr int pressed_from = 64;
    static constexpr int let_go_below = 48;
    static constexpr time::Seconds dead_time{0.150};
    static constexpr time::Seconds bounce{0.050};

    /// Throws text::BadInput: no such command, no such number, two commands on one switch.
    explicit Pedal(std::string_view words);

    /// Whether it is one of its switches that says this, pressed or let go.
    [[nodiscard]] bool is_meant_by(const midi::Message& message) const;

    /// What a message asks for, if it is a press. Times in order, on a clock that goes on from take
    /// to take (Session::in_the_stream).
    std::optional<Want> take(const midi::TimedMessage& timed);
    /// The same of what is new in a take.
    std::vector<Want> take(std::span<const midi::TimedMessage> news, const Session& session);

    /// Nothing is pressed any more: its cable was out, and what was let go meanwhile was not heard.
    void let_go();

  private:
    struct Switch {
        midi::Message::Kind kind = midi::Message::Kind::control_change;
        int number = 0;
        Want want{Command::stop};
        bool down = false;
        std::optional<time::Seconds> pressed = {};
        std::optional<time::Seconds> released = {};

        [[nodiscard]] bool is_meant_by(const midi::Message& message) const;
        bool goes_down(const midi::TimedMessage& timed);
        bool counts(time::Seconds at);
    };
    class Reader;

    std::vector<Switch> switches_;
};

/// The pedal whose messages are among the guitar's, and are no music; none: there is no such one.
[[nodiscard]] std::optional<Pedal> pedal_among_music(const TakeInfo& info);

}  // namespace compline::practice
