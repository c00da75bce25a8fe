// A foot on a MIDI pedal: one press is one command, whatever the pedal does on the way.

#include "support/catch.hpp"

#include <compline/practice/pedal.hpp>
#include <compline/simulate/chance.hpp>
#include <compline/text/bad_input.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace compline;
using practice::Command;
using practice::Pedal;
using practice::want_named;
using time::Seconds;

namespace {

constexpr int sustain = 64;

/// Controller 64, value after value, so many milliseconds apart.
class Foot {
  public:
    Foot& wait(double ms) {
        now_ += time::from_milliseconds(ms);
        return *this;
    }
    Foot& to(int value, double then_ms) {
        sent_.push_back({now_, midi::control_change(1, sustain, value)});
        return wait(then_ms);
    }
    Foot& sweep(int from, int to_value, double ms_a_step) {
        const int step = from < to_value ? 1 : -1;
        for (int value = from; value != to_value; value += step) to(value, ms_a_step);
        return *this;
    }

    /// When a command was asked for, in milliseconds.
    [[nodiscard]] std::vector<double> commands() const {
        Pedal pedal("64=loop here");
        std::vector<double> when;
        for (const auto& timed : sent_) {
            if (pedal.take(timed)) when.push_back(timed.at.milliseconds());
        }
        return when;
    }

  private:
    Seconds now_{0};
    std::vector<midi::TimedMessage> sent_;
};

std::string refusal(const std::string& words) {
    try {
        Pedal pedal(words);
    } catch (const text::BadInput& error) {
        return error.what();
    }
    return "";
}

/// Every one of these messages, a second apart; how many commands they were.
int presses(const std::string& words, const std::vector<midi::Message>& messages) {
    Pedal pedal(words);
    int count = 0;
    Seconds now(0);
    for (const auto& message : messages) {
        count += pedal.take({now, message}) ? 1 : 0;
        now += Seconds(1);
    }
    return count;
}

constexpr const char* all_commands =
    ": write loop here, leave the loop, pause, go on, cue, slower, faster, drums, bass, from the "
    "top, start over or stop";

}  // namespace

TEST_CASE("a switch gives one command a press, as it goes down", "[pedal]") {
    Foot foot;
    for (int press = 0; press < 4; ++press) foot.to(127, 200).to(0, 300);
    CHECK(foot.commands() == std::vector<double>{0, 500, 1000, 1500});
}

TEST_CASE("a pedal that sweeps through all values gives one command a press", "[pedal]") {
    Foot foot;
    for (int press = 0; press < 3; ++press) foot.sweep(0, 127, 4).sweep(127, 0, 3);
    CHECK(foot.commands().size() == 3);
    CHECK(foot.commands().front() == Approx(64 * 4));
}

TEST_CASE("a contact that bounces gives one command a press, going down and coming up", "[pedal]") {
    Foot foot;
    for (int press = 0; press < 3; ++press) {
        foot.to(127, 2).to(0, 3).to(127, 5).to(0, 4).to(127, 400);
        foot.to(0, 3).to(127, 2).to(0, 6).to(127, 4).to(0, 600);
    }
    CHECK(foot.commands().size() == 3);
}

TEST_CASE("a pedal that trembles around the middle gives one command a press", "[pedal]") {
    simulate::Chance chance(5);
    Foot foot;
    for (int press = 0; press < 3; ++press) {
        foot.sweep(0, 60, 1);
        for (int i = 0; i < 200; ++i) foot.to(52 + static_cast<int>(chance.below(24)), 5);
        foot.sweep(60, 0, 1).wait(300);
    }
    CHECK(foot.commands().size() == 3);
}

TEST_CASE("a foot may come down again a sixth of a second after it did", "[pedal]") {
    CHECK(Foot().to(127, 60).to(0, 80).to(127, 1).commands().size() == 1);
    CHECK(Foot().to(127, 60).to(0, 100).to(127, 1).commands().size() == 2);
}

TEST_CASE("a controller is pressed from 64 on and let go below 48, as MIDI says on and off",
          "[pedal]") {
    CHECK(Foot().to(63, 500).commands().empty());
    CHECK(Foot().to(64, 500).commands().size() == 1);
    CHECK(Foot().to(64, 500).to(48, 500).to(64, 500).commands().size() == 1);
    CHECK(Foot().to(64, 500).to(47, 500).to(64, 500).commands().size() == 2);
}

TEST_CASE("programs and notes are switches too, on whatever channel", "[pedal]") {
    const std::string words = "program 3=pause, note 36=stop";
    CHECK(presses(words, {midi::program_change(1, 3), midi::program_change(16, 3),
                          midi::program_change(1, 4)}) == 2);
    CHECK(presses(words, {midi::note_on(10, 36, 1), midi::note_off(10, 36),
                          midi::note_on(10, 36, 90), midi::note_on(10, 36, 0),
                          midi::note_on(10, 37, 90), midi::control_change(1, 36, 127)}) == 2);
    CHECK(presses("controller 3=pause", {midi::program_change(1, 3), midi::note_on(1, 3, 9),
                                         midi::control_change(7, 3, 64)}) == 1);
}

TEST_CASE("each switch has a dead time of its own", "[pedal]") {
    Pedal pedal("1=faster, 2=slower");
    CHECK(pedal.take({Seconds(0), midi::control_change(1, 1, 127)}) == want_named("faster"));
    CHECK(pedal.take({Seconds(0.01), midi::control_change(1, 2, 127)}) == want_named("slower"));
}

TEST_CASE("a pedal whose cable was out while it was let go can be pressed again", "[pedal]") {
    Pedal pedal("64=loop here");
    CHECK(pedal.take({Seconds(0), midi::control_change(1, 64, 127)}));
    CHECK_FALSE(pedal.take({Seconds(1), midi::control_change(1, 64, 127)}));
    pedal.let_go();
    CHECK(pedal.take({Seconds(2), midi::control_change(1, 64, 127)}));
}

TEST_CASE("pause, drums and bass are asked for again to have them undone", "[pedal]") {
    const auto form = chart::unroll(chart::read_chart(
        "title: One\nkey: C\ntempo: 120\nsections: {A: C6 | C6 | C6 | C6}\n", "one.yaml"));
    practice::State state{{form, roadmap::Asked::of({1, 4}, 1)}};
    CHECK(want_named("pause")->in(state) == Command::pause);
    CHECK(want_named("drums")->in(state) == Command::drums_off);
    CHECK(want_named("bass")->in(state) == Command::bass_off);
    state.paused = true;
    state.drums = state.bass = false;
    CHECK(want_named("pause")->in(state) == Command::go_on);
    CHECK(want_named("drums")->in(state) == Command::drums_on);
    CHECK(want_named("bass")->in(state) == Command::bass_on);
    CHECK(want_named("cue")->in(state) == Command::go_on);
    CHECK(want_named("loop here")->in(state) == Command::loop_here);
    CHECK(want_named("leave the loop")->in(state) == Command::leave_loop);
    CHECK(want_named("from the top")->in(state) == Command::from_the_top);
    CHECK(want_named("start over")->in(state) == Command::start_over);
    CHECK(want_named("stop")->in(state) == Command::stop);
}

TEST_CASE("what a pedal cannot ask for is named, with what it can", "[pedal]") {
    CHECK(refusal("64=loop hear") ==
          "character 4: \"loop hear\" is no command (did you mean loop here?)" +
              std::string(all_commands));
    CHECK(refusal("64=") == "there is nothing behind 64=" + std::string(all_commands));
    CHECK(refusal("64") == "\"64\" asks for nothing: write such as 64=loop here, 67=pause");
    CHECK(refusal("") == "a switch is missing: write such as 64=loop here, 67=pause");
    CHECK(refusal("64=pause,") ==
          "character 10: a switch is missing: write such as 64=loop here, 67=pause");
    CHECK(refusal("128=stop") == "\"128\" is no number on a MIDI cable: write 0 to 127");
    CHECK(refusal("note 200=stop") == "\"200\" is no number on a MIDI cable: write 0 to 127");
    CHECK(refusal("-1=stop") == "\"-1\" is no number on a MIDI cable: write 0 to 127");
    CHECK(refusal("prog 3=stop") ==
          "\"prog 3\" is no switch of a pedal: write a controller's number, program 3 or note 36");
    CHECK(refusal("64=pause, controller 64=stop") ==
          "character 11: controller 64 has a command already: give it one of the two");
    CHECK(refusal("64=pause, note 64=stop, program 64=cue").empty());
    CHECK(refusal("64=pause, 67=pause").empty());
}
