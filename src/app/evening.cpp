#include "evening.hpp"

#include "accidentals.hpp"
#include "evening_gear.hpp"
#include "evening_screen.hpp"
#include "fatal_signals.hpp"
#include "key_commands.hpp"
#include "keys.hpp"
#include "last_evening.hpp"
#include "recorder.hpp"
#include "session_files.hpp"
#include "stop_signals.hpp"
#include "take_history.hpp"

#include <compline/live/gear.hpp>
#include <compline/live/presence.hpp>
#include <compline/live/rig.hpp>
#include <compline/practice/evening.hpp>
#include <compline/practice/pedal.hpp>
#include <compline/report/hand.hpp>
#include <compline/report/practice_command.hpp>
#include <compline/report/report.hpp>
#include <compline/report/take_page.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/for_shell.hpp>

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <filesystem>
#include <system_error>
#include <thread>
#include <utility>

namespace compline::app {

namespace {

/// Short enough for the beat to be shown on the beat; each turn is a fraction of a millisecond.
constexpr std::chrono::milliseconds turn{10};

practice::TakeInfo opening_on(const AskedEvening& asked, const live::GearChoice& gear) {
    auto info = opening_of(asked);
    info.pedal = {asked.pedal.text, gear.pedal.has_value()};
    return info;
}

practice::JudgedMeanwhile judged_meanwhile(const AskedEvening& asked) {
    using practice::JudgedMeanwhile;
    if (!asked.listens()) return JudgedMeanwhile::nothing;
    return asked.verdicts ? JudgedMeanwhile::every_change : JudgedMeanwhile::times_through;
}

/// An evening on devices: takes in what happens, does what is decided, and shows how it stands.
class LiveEvening {
  public:
    explicit LiveEvening(const AskedEvening& asked)
        : asked_(asked),
          gear_(find_gear(asked)),
          evening_(asked.map, opening_on(asked, gear_), asked.rules, judged_meanwhile(asked),
                   asked.reminders ? practice::Reminders::on : practice::Reminders::off),
          rig_(open_gear(gear_, asked), asked.map, asked.players, asked.stage),
          screen_(asked) {
        if (!asked.pedal.empty()) pedal_.emplace(asked.pedal.text);
        if (asked.listens()) recorder_.emplace(asked.take, opening());
    }

    Status play() {
        screen_.introduce(gear_, rig_.machine(), evening_.asked());
        remember_evening();
        presence_.end();
        rig_.start();
        while (trouble_.empty() && !evening_.state().over) {
            look_after();
            trouble_ = rig_.trouble();
            std::this_thread::sleep_for(turn);
        }
        screen_.screen().close();
        const auto status = asked_.listens() ? finish() : report_trouble();
        say_how_to_go_on();
        return status;
    }

  private:
    [[nodiscard]] const practice::State& state() const { return evening_.state(); }

    [[nodiscard]] practice::Opening opening() const {
        auto info = evening_.opening();
        info.made = local_time_now();
        info.decided.clear();
        return {info, state().map};
    }

    void remember_evening() const {
        if (asked_.words.empty()) return;
        std::error_code unknown;
        remember({asked_.words, std::filesystem::current_path(unknown).string(),
                  evening_.asked().form().chart.title, local_time_now()});
    }

    void look_after() {
        const auto news = rig_.listen();
        const auto orders = evening_.advance(rig_.now(), news, commands(news));
        if (orders.finished) {
            start_over(*orders.finished, orders.decided);
        } else {
            if (orders.follow_from) rig_.follow(state().map, *orders.follow_from);
            if (recorder_) recorder_->add(news, orders.decided, state().now);
        }
        if (recorder_) screen_.warn_of_disk(recorder_->complaint());
        screen_.show(state(), rig_);
    }

    std::vector<practice::Command> commands(const practice::Played& news) {
        std::vector<practice::Command> commands;
        if (stop_was_asked()) commands.push_back(practice::Command::stop);
        while (const auto key = keys_.read()) {
            if (const auto command = command_of(*key, state())) commands.push_back(*command);
            if (asks_for_other_view(*key)) screen_.change_view();
        }
        for (const auto& want : foot(news)) commands.push_back(want.in(state()));
        return commands;
    }

    std::vector<practice::Want> foot(const practice::Played& news) {
        if (!pedal_) return {};
        const bool own_port = gear_.pedal.has_value();
        // What was let go while its cable was out was not heard.
        if ((own_port ? rig_.pedal() : rig_.guitar()).is_out()) pedal_->let_go();
        return pedal_->take(own_port ? news.pedal : news.messages, rig_.session());
    }

    void start_over(const practice::Take& finished,
                    const std::vector<practice::TimedDecision>& decided) {
        rig_.stop();
        if (recorder_) {
            (void)keep(finished);
            if (!recorder_->is_empty()) {
                finished_.push_back(recorder_->path());
                screen_.screen().print(fmt::format("over again; what you played is in {}",
                                                   recorder_->path().string()));
            }
            recorder_->start_over(opening());
        }
        screen_.start_over();
        (void)foot(rig_.listen());  // of a pedal that is let go meanwhile nothing is lost
        rig_.start(state().map);
        // What the instrument said of itself is in the new take too, from its beginning.
        const auto& news = rig_.session().played();
        (void)evening_.advance(state().now, news, {});
        if (recorder_) recorder_->add(news, decided, state().now);
    }

    /// When no more music plays; takes of before `r` or Home too.
    void keep_in_history() const {
        if (asked_.history) keep_takes_in_history(finished_, asked_.chart_file);
    }

    /// With how the machine bore up.
    practice::Take keep(practice::Take take) {
        take.info->machine = rig_.machine();
        return recorder_->finish(take);
    }

    Status report_trouble() const {
        if (trouble_.empty()) return Status::done;
        say(trouble_);
        return Status::could_not;
    }

    /// The tune was not over: all that was asked for, in the tempo of now.
    void say_how_to_go_on() const {
        if (trouble_.empty()) return;
        const auto tempo = report::tempo_piece(state().tempo, asked_.map.form().chart);
        say_as_is("To go on:\n" +
                  report::practice_command(asked_.chart_file, {tempo}, asked_.typed));
    }

    Status finish() {
        const auto news = rig_.listen();
        constexpr std::array stop{practice::Command::stop};
        (void)evening_.advance(rig_.now(), news, stop);
        rig_.stop();
        const auto take = keep(evening_.take());
        auto report = hear_and_judge(asked_.map.form(), take, {});
        report.chart_file = asked_.chart_file;
        report.kept = asked_.kept;
        report.through_keys = asked_.through_keys;
        report.program = version;
        if (!recorder_->is_empty()) report.take = recorder_->path().filename().string();
        Status status = report_trouble();
        if (!recorder_->complaint().empty()) {
            say(recorder_->complaint());
            status = Status::could_not;
        } else if (recorder_->is_empty()) {
            say(fmt::format("no note came from {}", rig_.machine().input));
        } else {
            say(fmt::format("The take is in {}", recorder_->path().string()));
            finished_.push_back(recorder_->path());
        }
        keep_in_history();
        if (asked_.json) {
            fmt::print("{}", report::to_json(report));
        } else {
            print_words(report::to_text(report, asked_.listing) + hand_words(report));
        }
        if (asked_.page.is_asked()) save_page(report);
        return status;
    }

    void save_page(practice::Report& report) const {
        const auto* const shown = asked_.voicings ? &*asked_.voicings : nullptr;
        if (shown != nullptr) report.hand = practice::hand_against_plan(report, *shown, nullptr);
        save(asked_.page, report::take_html(report, asked_.hand, shown));
    }

    /// How far the hand went beside the voicings that were shown; and where it says more.
    [[nodiscard]] std::string hand_words(const practice::Report& report) const {
        if (!asked_.voicings || recorder_->is_empty()) return "";
        const auto sentence =
            report::hand_sentence(practice::hand_against_plan(report, *asked_.voicings, nullptr));
        if (sentence.empty()) return "";
        return fmt::format("\n{} Where:\n  compline score {} --hand\n", sentence,
                           text::for_shell(recorder_->path().string()));
    }

    const AskedEvening& asked_;
    live::JackPresence presence_;
    live::GearChoice gear_;
    practice::Evening evening_;
    live::Rig rig_;
    std::optional<practice::Pedal> pedal_;
    std::optional<Recorder> recorder_;
    EveningScreen screen_;
    Keys keys_;
    TerminalInUse terminal_{keys_, screen_.screen()};
    std::string trouble_;
    std::vector<std::filesystem::path> finished_;  ///< takes, to be put in the history at the end
};

}  // namespace

Status play(const AskedEvening& asked) {
    const StopSignals signals;
    return LiveEvening(asked).play();
}

}  // namespace compline::app
