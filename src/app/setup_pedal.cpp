#include "device_answer.hpp"
#include "evening.hpp"
#include "setup_steps.hpp"

#include <compline/practice/pedal.hpp>
#include <compline/practice/want.hpp>

#include <algorithm>
#include <memory>
#include <utility>

namespace compline::app {

namespace {

using midi::Message;
using midi::TimedMessage;
using time::Seconds;

constexpr const char* with_the_guitar = "guitar";
constexpr Seconds patience{20};

/// The switch that a message presses, in words of --pedal. Among a guitar's notes none is looked
/// for.
std::optional<std::string> switch_pressed(const Message& message, bool own_port) {
    switch (message.kind()) {
        case Message::Kind::control_change:
            if (message.data2 < practice::Pedal::pressed_from) return std::nullopt;
            return fmt::format("{}", message.data1);
        case Message::Kind::program_change:
            return fmt::format("program {}", message.data1);
        default:
            if (!own_port || !message.starts_note()) return std::nullopt;
            return fmt::format("note {}", message.data1);
    }
}

class PedalStep {
  public:
    explicit PedalStep(Setup setup) : setup_(setup) {}

    Then begin(const std::string& answer) {
        has_pedal_ = read_yes(answer);
        ear_.reset();
        taken_.clear();
        return Then::on;
    }
    [[nodiscard]] bool has_pedal() const { return has_pedal_; }
    [[nodiscard]] bool listens() const { return ear_ != nullptr; }

    [[nodiscard]] std::string list() {
        inputs_ = setup_.gear.inputs();
        return "Your pedal can come in by\n" + numbered_list(inputs_.found) +
               "By which? a number, a part of the name, or guitar (the guitar's own input)";
    }

    Then open(const std::string& answer) {
        own_port_ = answer != with_the_guitar;
        const auto input = own_port_ ? device_meant(inputs_.found, answer)
                                     : live::choose_input(inputs_, setup_.answers.now("in"));
        try {
            ear_ = setup_.gear.listen_to(input);
        } catch (const live::DeviceError& error) {
            throw BadInput(error.what());
        }
        if (own_port_) setup_.answers.set("pedal-in", full_name(input));
        return Then::on;
    }

    std::optional<std::string> wait(Talk& talk) {
        const auto pressed = [this](const std::vector<TimedMessage>& heard, Seconds) {
            return pressed_in(heard).has_value();
        };
        return listen_until(*ear_, talk, patience, pressed, heard_);
    }

    Then give(const std::string& want) {
        forget(want);
        if (const auto pressed = pressed_in(heard_)) {
            for (const auto& [other, its] : taken_) {
                if (other == *pressed) {
                    throw BadInput(fmt::format("that switch asks for {} already", its), "",
                                   "press another, or Enter for none");
                }
            }
            taken_.emplace_back(*pressed, want);
            setup_.talk.tell(fmt::format("{}={}", *pressed, want));
        }
        set();
        return Then::on;
    }

  private:
    [[nodiscard]] std::optional<std::string> pressed_in(
        const std::vector<TimedMessage>& heard) const {
        for (const auto& timed : heard) {
            if (auto pressed = switch_pressed(timed.message, own_port_)) return pressed;
        }
        return std::nullopt;
    }

    void forget(const std::string& want) {
        std::erase_if(taken_, [&](const auto& one) { return one.second == want; });
    }

    void set() {
        std::string words;
        for (const auto& [pressed, want] : taken_) {
            words += fmt::format("{}{}={}", words.empty() ? "" : ", ", pressed, want);
        }
        words.empty() ? setup_.answers.leave("pedal") : setup_.answers.set("pedal", words);
    }

    Setup setup_;
    live::MidiInputs inputs_;
    std::unique_ptr<Ear> ear_;
    bool has_pedal_ = false;
    bool own_port_ = true;
    std::vector<TimedMessage> heard_;
    std::vector<std::pair<std::string, std::string>> taken_;  // switch, what it asks for
};

using SharedPedalStep = std::shared_ptr<PedalStep>;

Question is_there_one(Setup setup, const SharedPedalStep& step) {
    Question question;
    question.wanted = [setup] {
        if (setup.answers.is_given("pedal")) return false;
        const auto inputs = setup.gear.inputs();
        if (inputs.found.empty() && setup.alone) {
            setup.talk.tell("There is no MIDI input for a pedal:" + reasons(inputs.empty));
        }
        return !inputs.found.empty();
    };
    question.words = [] {
        return "Have you a MIDI pedal, to loop a row or pause by foot? yes or no";
    };
    question.usual = [] { return "no"; };
    question.take = [step](const std::string& answer) { return step->begin(answer); };
    return question;
}

Question which_input(const SharedPedalStep& step) {
    Question question;
    question.wanted = [step] { return step->has_pedal(); };
    question.words = [step] { return step->list(); };
    question.usual = [] { return with_the_guitar; };
    question.take = [step](const std::string& answer) { return step->open(answer); };
    return question;
}

Question which_switch(const SharedPedalStep& step, const std::string& want) {
    Question question;
    question.wanted = [step] { return step->listens(); };
    question.words = [want] {
        return fmt::format("For \"{}\": press the switch, or Enter for none", want);
    };
    question.wait = [step](Talk& talk) { return step->wait(talk); };
    question.take = [step, want](const std::string& answer) {
        if (answer.empty()) return step->give(want);
        throw BadInput(text::printable(answer), "", "press a switch of the pedal, or Enter");
    };
    return question;
}

}  // namespace

std::vector<Question> pedal_questions(Setup setup) {
    const auto step = std::make_shared<PedalStep>(setup);
    std::vector<Question> questions = {is_there_one(setup, step), which_input(step)};
    for (const auto& want : practice::want_names()) {
        questions.push_back(which_switch(step, want));
    }
    return questions;
}

}  // namespace compline::app
