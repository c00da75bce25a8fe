#include "device_answer.hpp"
#include "evening.hpp"
#include "setup_steps.hpp"

#include <compline/listen/pickup_words.hpp>
#include <compline/report/unit_words.hpp>
#include <compline/text/numbers.hpp>

#include <algorithm>
#include <memory>
#include <utility>

namespace compline::app {

namespace {

using midi::TimedMessage;
using time::Seconds;

constexpr Seconds patience_for_string{20};
/// Of a note: until its pitch has settled. Of a strum: until nothing more comes.
constexpr Seconds note_lasts{0.5};

/// What is tried of the unit, and what it sent until now.
class StringsStep {
  public:
    explicit StringsStep(Setup setup) : setup_(setup) {}

    /// The input that is meant, where there is one to listen to.
    [[nodiscard]] bool finds_input() {
        ear_.reset();
        const auto kept = setup_.answers.now("in");
        if (kept == no_input || is_sound(kept)) return false;
        try {
            input_ = live::choose_input(setup_.gear.inputs(), kept);
            return true;
        } catch (const std::runtime_error& error) {
            if (setup_.alone) setup_.talk.tell(error.what());  // else the step before said why
            return false;
        }
    }

    [[nodiscard]] std::string about() const {
        return fmt::format("Shall we see what {} sends, string by string? yes or no",
                           text::printable_lines(full_name(*input_)));
    }

    Then open(const std::string& answer) {
        if (!read_yes(answer)) return Then::on;
        try {
            ear_ = setup_.gear.listen_to(*input_);
        } catch (const live::DeviceError& error) {
            setup_.talk.tell(error.what());
        }
        neck_ = setup_.answers.fretboard();
        all_.clear();
        return Then::on;
    }

    [[nodiscard]] bool listens() const { return ear_ != nullptr; }
    [[nodiscard]] const guitar::Fretboard& neck() const { return neck_; }

    std::optional<std::string> wait(Talk& talk) {
        const auto sounded = [](const std::vector<TimedMessage>& heard, Seconds now) {
            const auto last = std::find_if(heard.rbegin(), heard.rend(), [](const auto& timed) {
                return timed.message.starts_note();
            });
            return last != heard.rend() && now - last->at > note_lasts;
        };
        auto typed = listen_until(*ear_, talk, patience_for_string, sounded, heard_);
        all_.insert(all_.end(), heard_.begin(), heard_.end());
        return typed;
    }

    Then tell_string(int string) {
        const auto notes = heard_notes();
        if (notes.empty()) return nothing_came(fmt::format("string {}", string));
        const auto loudest =
            std::max_element(notes.begin(), notes.end(),
                             [](const auto& a, const auto& b) { return a.velocity < b.velocity; });
        setup_.talk.tell(report::open_string_words(string, *loudest, neck_));
        return report::is_open_string(string, *loudest, neck_) ? Then::on : Then::again;
    }

    Then tell_soft() {
        const auto notes = heard_notes();
        if (notes.empty()) return nothing_came("a soft strum");
        soft_ = listen::velocities_by_string(notes, strings(), neck_);
        return Then::on;
    }

    Then tell_hard() {
        const auto notes = heard_notes();
        if (notes.empty()) return nothing_came("a hard strum");
        const auto hard = listen::velocities_by_string(notes, strings(), neck_);
        if (!soft_.empty()) setup_.talk.tell(report::sensitivity_words(soft_, hard));
        setup_.talk.tell("Your unit: " + listen::in_words(strings()) + ".");
        if (const auto told = listen::bend_range_told(all_)) {
            setup_.talk.tell(fmt::format("It bends by {} semitones, as it told.",
                                         text::to_three_decimals(*told)));
        }
        return Then::on;
    }

    [[nodiscard]] bool keeps_its_bend_range() const {
        return listens() && !all_.empty() && !listen::bend_range_told(all_);
    }

  private:
    [[nodiscard]] std::vector<listen::NoteSeen> heard_notes() const {
        const auto notes =
            listen::notes_seen(all_, listen::PickupSettings{}.bend_range, ear_->now());
        std::vector<listen::NoteSeen> now;
        const auto begin = heard_.empty() ? Seconds(0) : heard_.front().at;
        std::copy_if(notes.begin(), notes.end(), std::back_inserter(now),
                     [&](const auto& note) { return !heard_.empty() && note.at >= begin; });
        return now;
    }
    [[nodiscard]] std::optional<listen::Strings> strings() const {
        return listen::find_strings(all_, neck_);
    }
    Then nothing_came(const std::string& from) {
        setup_.talk.tell(
            fmt::format("nothing came from {}; the report of an evening tells too", from));
        return Then::on;
    }

    Setup setup_;
    std::optional<live::MidiInput> input_;
    std::unique_ptr<Ear> ear_;
    guitar::Fretboard neck_ = guitar::Fretboard::standard();
    std::vector<TimedMessage> heard_;  // by the question of now
    std::vector<TimedMessage> all_;
    std::vector<int> soft_;
};

using SharedStringsStep = std::shared_ptr<StringsStep>;

Question look(const SharedStringsStep& step) {
    Question question;
    question.wanted = [step] { return step->finds_input(); };
    question.words = [step] { return step->about(); };
    question.usual = [] { return "yes"; };
    question.take = [step](const std::string& answer) { return step->open(answer); };
    return question;
}

/// Played, not typed; Enter goes on without.
Question heard_question(const SharedStringsStep& step, std::function<std::string()> words,
                        std::function<Then()> tell) {
    Question question;
    question.wanted = [step] { return step->listens(); };
    question.words = std::move(words);
    question.wait = [step](Talk& talk) { return step->wait(talk); };
    question.take = [tell = std::move(tell)](const std::string& answer) {
        if (answer.empty()) return tell();
        throw BadInput(text::printable(answer), "", "play, or press Enter to go on");
    };
    return question;
}

Question open_string(const SharedStringsStep& step, int string) {
    auto question = heard_question(
        step,
        [step, string] {
            return fmt::format("String {}, open: play it, let it ring (Enter goes on)", string);
        },
        [step, string] { return step->tell_string(string); });
    question.wanted = [step, string] {
        return step->listens() && string <= step->neck().strings();
    };
    return question;
}

std::string bend_range_in(const std::string& words) {
    listen::PickupSettings settings;
    listen::read_pickup(words, settings);
    return text::to_three_decimals(settings.bend_range);
}

Question bend_range(Setup setup, const SharedStringsStep& step) {
    constexpr const char* key = "midi-pickup";
    Question question;
    question.wanted = [setup, step] {
        return !setup.answers.is_given(key) && step->keeps_its_bend_range();
    };
    question.words = [] {
        return "Your unit did not tell how far it bends (many tell only when they are switched\n"
               "on). How many semitones is it set to?";
    };
    question.usual = [setup] { return bend_range_in(setup.answers.now(key)); };
    question.take = [setup](const std::string& answer) {
        const auto words = setup.answers.now(key);
        if (answer != bend_range_in(words)) {
            setup.answers.set(key, listen::with_pickup_word(words, "bend", answer));
        }
        return Then::on;
    };
    question.leave = [setup] { setup.answers.leave(key); };
    return question;
}

}  // namespace

std::vector<Question> strings_questions(Setup setup) {
    const auto step = std::make_shared<StringsStep>(setup);
    std::vector<Question> questions = {look(step)};
    for (int string = guitar::most_strings; string >= 1; --string) {
        questions.push_back(open_string(step, string));
    }
    questions.push_back(heard_question(
        step, [] { return "Now a soft strum over all open strings (Enter goes on)"; },
        [step] { return step->tell_soft(); }));
    questions.push_back(heard_question(
        step, [] { return "... and as hard a one as you ever play (Enter goes on)"; },
        [step] { return step->tell_hard(); }));
    questions.push_back(bend_range(setup, step));
    return questions;
}

}  // namespace compline::app
