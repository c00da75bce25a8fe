#include "evening.hpp"

#include "accidentals.hpp"
#include "fatal_signals.hpp"
#include "key_commands.hpp"
#include "keys.hpp"
#include "last_evening.hpp"
#include "recorder.hpp"
#include "session_files.hpp"
#include "stop_signals.hpp"
#include "terminal.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/listen/pickup_words.hpp>
#include <compline/live/device_choice.hpp>
#include <compline/live/gear.hpp>
#include <compline/live/presence.hpp>
#include <compline/live/rig.hpp>
#include <compline/practice/evening.hpp>
#include <compline/report/decided.hpp>
#include <compline/report/large_view.hpp>
#include <compline/report/now_playing.hpp>
#include <compline/report/place_teller.hpp>
#include <compline/report/remarks.hpp>
#include <compline/report/report.hpp>
#include <compline/report/time_through_line.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <filesystem>
#include <thread>
#include <utility>

namespace compline::app {

namespace {

/// Short enough for the beat to be shown on the beat; each turn is a fraction of a millisecond.
constexpr std::chrono::milliseconds turn{10};

/// A period above which RtMidi's times of JACK's messages are worth a warning.
constexpr int coarse_period = 128;

std::string before_colon(const std::string& wish) { return wish.substr(0, wish.find(':')); }

/// JACK first, and alone if it is there: asking every API can take longer than a count-in.
live::AudioOutput find_output(const std::string& wish) {
    if (!wish.empty()) return choose_output(live::audio_outputs(before_colon(wish)), wish);
    const auto jack = live::audio_outputs("JACK");
    return choose_output(jack.found.empty() ? live::audio_outputs() : jack, wish);
}

live::MidiInput find_input(const std::string& wish) {
    return choose_input(live::midi_inputs(before_colon(wish)), wish);
}

/// Where a wish stands that was not typed: to be named where it cannot be met.
std::string setting_place(const AsGiven& wish) {
    return wish.empty() || is_option_name(wish.name) ? "" : wish.name;
}

live::GearChoice find_gear(const AskedEvening& asked) {
    live::GearChoice gear;
    gear.output =
        text::read_at(setting_place(asked.out), [&] { return find_output(asked.out.text); });
    if (asked.listens()) {
        gear.input =
            text::read_at(setting_place(asked.in), [&] { return find_input(asked.in.text); });
    }
    gear.stream = {asked.rate, asked.period};
    return gear;
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
          evening_(asked.map, opening_of(asked), asked.rules, judged_meanwhile(asked),
                   asked.reminders ? practice::Reminders::on : practice::Reminders::off),
          rig_(open_gear(gear_, asked.players), asked.map, asked.players, asked.stage) {
        if (asked.listens()) recorder_.emplace(asked.take, opening());
    }

    Status play() {
        introduce();
        remember_evening();
        presence_.end();
        rig_.start();
        while (trouble_.empty() && !evening_.state().over) {
            look_after();
            trouble_ = rig_.trouble();
            std::this_thread::sleep_for(turn);
        }
        screen_.close();
        return asked_.listens() ? finish() : report_trouble();
    }

  private:
    [[nodiscard]] const practice::State& state() const { return evening_.state(); }

    [[nodiscard]] practice::Opening opening() const {
        auto info = evening_.opening();
        info.made = local_time_now();
        info.decided.clear();
        return {info, state().map};
    }

    void introduce() {
        const auto machine = rig_.machine();
        const auto& map = evening_.asked();
        screen_.print(fmt::format("{}: {}, {} Hz, {} frames{}", map.form().chart.title,
                                  machine.output, machine.rate_hz, machine.period_frames,
                                  gear_.input ? "; listening to " + machine.input : ""));
        if (!map.way().is_uniform()) {
            screen_.print("the road map: " + chart::road_map_in_words(map.way(), map.form()));
        }
        if (gear_.input && gear_.input->api == live::coarse_jack &&
            machine.period_frames > coarse_period) {
            say(
                fmt::format("{} knows when you play only to the period, here {:.1f} ms: use "
                            "--in JACK:{}, or a period of {} or less",
                            live::coarse_jack, 1000.0 * machine.period_frames / machine.rate_hz,
                            gear_.input->name, coarse_period));
        }
    }

    void remember_evening() const {
        if (asked_.words.empty()) return;
        std::error_code unknown;
        remember({asked_.words, std::filesystem::current_path(unknown).string(),
                  evening_.asked().form().chart.title, local_time_now()});
    }

    void look_after() {
        const auto news = rig_.listen();
        const auto orders = evening_.advance(rig_.now(), news, commands());
        if (orders.finished) {
            start_over(*orders.finished, orders.decided);
        } else {
            if (orders.follow_from) rig_.follow(state().map, *orders.follow_from);
            if (recorder_) recorder_->add(news, orders.decided, state().now);
        }
        show();
    }

    std::vector<practice::Command> commands() {
        std::vector<practice::Command> commands;
        if (stop_was_asked()) commands.push_back(practice::Command::stop);
        while (const auto key = keys_.read()) {
            if (const auto command = command_of(*key, state())) commands.push_back(*command);
            if (asks_for_other_view(*key)) change_view();
        }
        return commands;
    }

    void change_view() {
        view_ = view_ == report::View::rows ? report::View::large : report::View::rows;
    }

    void start_over(const practice::Take& finished,
                    const std::vector<practice::TimedDecision>& decided) {
        rig_.stop();
        if (recorder_) {
            (void)keep(finished);
            if (!recorder_->is_empty()) {
                screen_.print(fmt::format("over again; what you played is in {}",
                                          recorder_->path().string()));
            }
            recorder_->start_over(opening());
        }
        teller_.start_over();
        times_said_ = 0;
        changes_said_ = 0;
        remarks_said_ = 0;
        rig_.start(state().map);
        // What the instrument said of itself is in the new take too, from its beginning.
        const auto& news = rig_.session().played();
        (void)evening_.advance(state().now, news, {});
        if (recorder_) recorder_->add(news, decided, state().now);
    }

    void show() {
        warn_of_disk();
        say_what_is_heard();
        say_how_it_went();
        say_remarks();
        draw();
    }

    void warn_of_disk() {
        if (!recorder_ || recorder_->complaint().empty() || warned_of_disk_) return;
        warned_of_disk_ = true;
        screen_.print(recorder_->complaint() + "; the take is kept in memory until the end");
    }

    void say_what_is_heard() {
        if (said_strings_ || !state().strings) return;
        said_strings_ = true;
        screen_.print("your MIDI pickup: " + listen::in_words(*state().strings));
    }

    void say_how_it_went() {
        for (; changes_said_ < state().verdicts.size(); ++changes_said_) {
            screen_.print(report::verdict_line(state().verdicts[changes_said_], state().map));
        }
        if (!state().lately) return;
        for (; times_said_ < state().times_over; ++times_said_) {
            screen_.print(report::time_through_line(state().lately->assessment, times_said_ + 1));
            const auto ladder = report::ladder_line(state(), times_said_ + 1);
            if (!ladder.empty()) screen_.print(ladder);
        }
    }

    void say_remarks() {
        for (; remarks_said_ < state().remarks.size(); ++remarks_said_) {
            screen_.print(report::in_words(state().remarks[remarks_said_]));
        }
    }

    /// Rows of the whole form: a loop may be anywhere in it.
    void draw() {
        const auto& form = state().map.form();
        if (const int columns = screen_.columns(); columns != columns_) {
            columns_ = columns;
            rows_ = report::chart_rows(form, form.all(), columns);
        }
        const auto* const voicings = asked_.voicings ? &*asked_.voicings : nullptr;
        const report::Playing playing{state().map,
                                      screen_.attributes(),
                                      voicings,
                                      report::decided_in(state()),
                                      {columns_, screen_.lines()},
                                      view_};
        const auto position = state().map.position_at(state().now);
        if (!screen_.draws()) {
            for (const auto& line : teller_.news(rows_, playing, position)) screen_.print(line);
        } else if (view_ == report::View::large) {
            screen_.draw(report::large_view(rows_, playing, position, screen_.printed()));
        } else {
            screen_.draw(report::now_playing(rows_, playing, position));
        }
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
        }
        if (asked_.json) {
            fmt::print("{}", report::to_json(report));
        } else {
            print_words(report::to_text(report, asked_.listing));
        }
        return status;
    }

    const AskedEvening& asked_;
    live::JackPresence presence_;
    live::GearChoice gear_;
    practice::Evening evening_;
    live::Rig rig_;
    std::optional<Recorder> recorder_;
    Screen screen_;
    Keys keys_;
    TerminalInUse terminal_{keys_, screen_};
    report::View view_ = asked_.view;
    report::PlaceTeller teller_;
    report::ChartRows rows_;
    int columns_ = 0;
    int times_said_ = 0;
    std::size_t changes_said_ = 0;
    std::size_t remarks_said_ = 0;
    bool said_strings_ = false;
    bool warned_of_disk_ = false;
    std::string trouble_;
};

}  // namespace

std::string input_name(const AsGiven& wish) {
    if (wish.text == no_input) return "";
    try {
        const auto input = find_input(wish.text);
        return input.api + ":" + input.name;
    } catch (const BadInput&) {
        return "";  // whoever opens it says why there is none
    }
}

Status play(const AskedEvening& asked) {
    const StopSignals signals;
    return LiveEvening(asked).play();
}

}  // namespace compline::app
