#include "device_answer.hpp"
#include "setup_steps.hpp"

#include <algorithm>
#include <memory>

namespace compline::app {

namespace {

constexpr double first_decibels_below = 12;
constexpr double step_decibels = 6;
constexpr double most_decibels_below = 36;

/// What is known of the output while it is chosen and heard.
class OutputStep {
  public:
    explicit OutputStep(Setup setup) : setup_(setup) {}

    [[nodiscard]] bool finds_any() {
        outputs_ = setup_.gear.outputs();
        if (!outputs_.found.empty()) return true;
        setup_.talk.tell("There is nothing to play the band through:" + reasons(outputs_.empty) +
                         "\nPlug in what you hear by, then: compline setup output");
        return false;
    }

    [[nodiscard]] std::string list() const {
        return "The band can be heard by\n" + numbered_list(outputs_.found) +
               "By which? a number, or a part of the name";
    }

    [[nodiscard]] std::string usual() const {
        const auto kept = setup_.answers.now(key);
        const auto fits =
            kept.empty() ? std::vector<live::AudioOutput>{} : called(outputs_.found, kept);
        return full_name(fits.size() == 1 ? fits.front() : usual_output());
    }

    Then choose(const std::string& answer) {
        chosen_ = device_meant(outputs_.found, answer);
        setup_.answers.set(key, full_name(*chosen_), full_name(usual_output()));
        decibels_below_ = first_decibels_below;
        return Then::on;
    }

    void leave() {
        setup_.answers.leave(key);
        chosen_.reset();
        played_ = false;
    }

    /// By an option, or since only what comes after it was asked for.
    [[nodiscard]] bool is_chosen() const { return chosen_.has_value(); }

    Then play() {
        try {
            setup_.gear.play_four_bars(*chosen_, decibels_below_, setup_.talk);
            played_ = true;
            return Then::on;
        } catch (const std::runtime_error& error) {
            setup_.talk.tell(error.what());
            return Then::back;
        }
    }
    [[nodiscard]] bool was_played() const { return played_; }

    Then hear(const std::string& answer) {
        static const std::vector<std::string> words = {"yes", "louder", "softer", "no"};
        const bool short_yes = text::same_but_for_capitals(answer, "y");
        const auto which = short_yes ? 0 : read_answer(answer, words);
        if (which == 0) return take_level();
        if (which == 3) return not_heard();
        if (!change_level(which == 1 ? -step_decibels : step_decibels)) return Then::again;
        (void)play();
        return Then::again;
    }

    static constexpr const char* key = "out";

  private:
    /// As live::choose_output takes it where nobody says which: JACK's before others.
    [[nodiscard]] live::AudioOutput usual_output() const {
        const auto& found = outputs_.found;
        const auto jack = std::find_if(found.begin(), found.end(),
                                       [](const auto& one) { return one.api == "JACK"; });
        if (jack != found.end()) return live::choose_output({{*jack}, {}}, "");
        return live::choose_output(outputs_, "");
    }

    bool change_level(double by) {
        const auto wanted = decibels_below_ + by;
        if (wanted < 0) {
            setup_.talk.tell(
                "That is as loud as the band plays: turn your own volume up, little by little.");
            return false;
        }
        if (wanted > most_decibels_below) {
            setup_.talk.tell("It can be played no softer: turn your own volume down.");
            return false;
        }
        decibels_below_ = wanted;
        return true;
    }

    Then take_level() {
        if (decibels_below_ > 0) {
            setup_.talk.tell(fmt::format(
                "When you practise the band comes in as softly and is {:.0f} dB louder after a "
                "moment: leave room for that.",
                decibels_below_));
        }
        return Then::on;
    }

    Then not_heard() {
        setup_.talk.tell(
            "Is the volume up, are the headphones in that box, is another program holding it? "
            "Try again, or go back once more and choose another.");
        played_ = false;
        return Then::back;
    }

    Setup setup_;
    live::AudioOutputs outputs_;
    std::optional<live::AudioOutput> chosen_;
    double decibels_below_ = first_decibels_below;
    bool played_ = false;
};

Question which_output(Setup setup, const std::shared_ptr<OutputStep>& step) {
    Question question;
    question.wanted = [setup, step] {
        if (!step->finds_any()) return false;
        if (!setup.answers.is_given(OutputStep::key)) return true;
        (void)step->choose(setup.answers.now(OutputStep::key));
        return false;
    };
    question.words = [step] { return step->list(); };
    question.usual = [step] { return step->usual(); };
    question.take = [step](const std::string& answer) { return step->choose(answer); };
    question.leave = [step] { step->leave(); };
    return question;
}

Question four_bars(const std::shared_ptr<OutputStep>& step) {
    Question question;
    question.wanted = [step] { return step->is_chosen(); };
    question.words = [] {
        return "Turn your headphones or speakers down now, and up only while it plays: band in\n"
               "the ears for hours can harm hearing. Four bars, softly; Enter plays them, and\n"
               "Enter again stops them:";
    };
    question.take = [step](const std::string& answer) {
        if (!answer.empty())
            throw BadInput(text::printable(answer), "", "expected Enter, - or back");
        return step->play();
    };
    return question;
}

Question do_you_hear_it(const std::shared_ptr<OutputStep>& step) {
    Question question;
    question.wanted = [step] { return step->was_played(); };
    question.words = [] { return "Do you hear it? yes, louder, softer or no"; };
    question.usual = [] { return "yes"; };
    question.take = [step](const std::string& answer) { return step->hear(answer); };
    return question;
}

}  // namespace

std::vector<Question> output_questions(Setup setup) {
    const auto step = std::make_shared<OutputStep>(setup);
    return {which_output(setup, step), four_bars(step), do_you_hear_it(step)};
}

}  // namespace compline::app
