#include "evening.hpp"

#include "fatal_signals.hpp"
#include "keys.hpp"
#include "recorder.hpp"
#include "stop_signals.hpp"
#include "terminal.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/listen/pickup_words.hpp>
#include <compline/live/device_choice.hpp>
#include <compline/live/gear.hpp>
#include <compline/live/presence.hpp>
#include <compline/live/rig.hpp>
#include <compline/report/now_playing.hpp>
#include <compline/report/report.hpp>
#include <compline/report/time_through_line.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <thread>
#include <utility>

namespace compline::app {

namespace {

using time::Seconds;

/// Short enough for the beat to be shown on the beat; each turn is a fraction of a millisecond.
constexpr std::chrono::milliseconds turn{10};

/// A period above which RtMidi's times of JACK's messages are worth a warning.
constexpr int coarse_period = 128;

/// Notes after which it can be said which channel is which string: three or four small grips.
constexpr int first_strums = 12;

std::string before_colon(const std::string& wish) { return wish.substr(0, wish.find(':')); }

/// JACK first, and alone if it is there: asking every API can take longer than a count-in.
live::AudioOutput find_output(const std::string& wish) {
    if (!wish.empty()) return choose_output(live::audio_outputs(before_colon(wish)), wish);
    const auto jack = live::audio_outputs("JACK");
    return choose_output(jack.found.empty() ? live::audio_outputs() : jack, wish);
}

live::GearChoice find_gear(const Evening& evening) {
    live::GearChoice gear;
    gear.output = find_output(evening.out);
    if (evening.listens()) {
        gear.input = choose_input(live::midi_inputs(before_colon(evening.in)), evening.in);
    }
    gear.stream = {evening.rate, evening.period};
    return gear;
}

/// One practice session, from the first count-in to the report.
class EveningRun {
  public:
    explicit EveningRun(const Evening& evening)
        : evening_(evening),
          gear_(find_gear(evening)),
          rig_(open_gear(gear_, evening.players), evening.map, evening.players, evening.stage),
          playing_{evening.map} {
        if (evening.listens()) recorder_.emplace(evening);
        playing_.attributes = screen_.attributes();
        if (evening.voicings) playing_.voicings = &*evening.voicings;
    }

    Status play() {
        introduce();
        presence_.end();
        rig_.start();
        while (goes_on()) {
            look_after();
            std::this_thread::sleep_for(turn);
        }
        screen_.close();
        return evening_.listens() ? finish() : report_trouble();
    }

  private:
    void introduce() {
        const auto machine = rig_.machine();
        if (screen_.draws()) {
            screen_.print(fmt::format("{}: {}, {} Hz, {} frames{}", evening_.map.form().chart.title,
                                      machine.output, machine.rate_hz, machine.period_frames,
                                      gear_.input ? "; listening to " + machine.input : ""));
        }
        const auto& map = evening_.map;
        if (screen_.draws() && !map.way().is_uniform()) {
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

    bool goes_on() {
        if (stop_was_asked() || stopping_) return false;
        trouble_ = rig_.trouble();
        return trouble_.empty() && !rig_.session().finished(rig_.now());
    }

    void look_after() {
        const auto news = rig_.listen();
        const Seconds now = rig_.now();
        if (recorder_) recorder_->add(news, now);
        take_key();
        if (!screen_.draws()) return;
        warn_of_disk();
        say_what_is_heard();
        say_how_it_went(now);
        draw(now);
    }

    void warn_of_disk() {
        if (!recorder_ || recorder_->complaint().empty() || warned_of_disk_) return;
        warned_of_disk_ = true;
        screen_.print(recorder_->complaint() + "; the take is kept in memory until the end");
    }

    /// Once, from the first strums: which channel is which string.
    void say_what_is_heard() {
        if (said_strings_ || !evening_.listens()) return;
        const auto& messages = rig_.session().played().messages;
        const auto notes = std::count_if(messages.begin(), messages.end(), [](const auto& timed) {
            return timed.message.starts_note();
        });
        if (notes < first_strums) return;
        said_strings_ = true;
        const auto report = so_far(rig_.now());
        screen_.print("your MIDI pickup: " + listen::in_words(report.strings));
    }

    void take_key() {
        const auto key = keys_.read();
        if (key == 'q') stopping_ = true;
        if (key == ' ') start_over();
    }

    void start_over() {
        rig_.stop();
        if (recorder_) {
            (void)keep_take();
            if (!recorder_->is_empty()) {
                screen_.print(fmt::format("over again; what you played is in {}",
                                          recorder_->path().string()));
            }
            recorder_->start_over();
        }
        times_said_ = 0;
        said_changes_ = 0;
        rig_.start();
        // What the instrument said of itself is in the new take too, from its beginning.
        if (recorder_) recorder_->add(rig_.session().played(), -evening_.map.lead());
    }

    void draw(Seconds now) {
        if (const int columns = screen_.columns(); columns != columns_) {
            columns_ = columns;
            rows_ = report::chart_rows(evening_.map.form(), evening_.map.way().reach(), columns);
        }
        screen_.draw(report::now_playing(rows_, playing_, evening_.map.position_at(now)));
    }

    /// What was played until now, judged as if it ended here.
    practice::Report so_far(Seconds now) const {
        const auto& session = rig_.session();
        const int times = std::max(1, session.times_begun(now));
        auto take =
            ended_take(take_info(evening_), evening_.map.first(times), session.played(), now);
        return hear_and_judge(evening_.map.form(), std::move(take), evening_.rules);
    }

    void say_how_it_went(Seconds now) {
        if (!recorder_) return;
        const int over = rig_.session().times_over(now);
        const int beat = static_cast<int>(evening_.map.tempi().beat_at(now).count());
        const bool judge_now = evening_.verdicts && beat != judged_beat_ && beat > 0;
        if (over <= times_said_ && !judge_now) return;
        judged_beat_ = beat;
        const auto report = so_far(now);
        if (evening_.verdicts) say_verdicts(report, now);
        for (; times_said_ < over; ++times_said_) {
            screen_.print(report::time_through_line(report.assessment, times_said_ + 1));
        }
    }

    /// A verdict is said once nothing that is still to come can change it, and its chord had two
    /// beats to come in.
    void say_verdicts(const practice::Report& report, Seconds now) {
        const auto tempo = evening_.map.tempo_at(evening_.map.position_at(now));
        const Seconds wait = tempo.beat() * 2 + Seconds(0.1);
        const auto& changes = report.assessment.changes;
        const auto settled = std::min(report.assessment.settled, changes.size());
        for (; said_changes_ < settled; ++said_changes_) {
            if (changes[said_changes_].at + wait > now) return;
            screen_.print(report::verdict_line(changes[said_changes_], evening_.map.form()));
        }
    }

    practice::Take keep_take() {
        const auto& session = rig_.session();
        const Seconds now = rig_.now();
        return recorder_->finish(session.played(), session.times_begun(now), rig_.machine(), now);
    }

    Status report_trouble() const {
        if (trouble_.empty()) return Status::done;
        say(trouble_);
        return Status::could_not;
    }

    Status finish() {
        (void)rig_.listen();
        rig_.stop();
        const auto take = keep_take();
        auto report = hear_and_judge(evening_.map.form(), take, {});
        report.chart_file = evening_.chart_file;
        Status status = report_trouble();
        if (!recorder_->complaint().empty()) {
            say(recorder_->complaint());
            status = Status::could_not;
        } else if (recorder_->is_empty()) {
            say(fmt::format("no note came from {}", rig_.machine().input));
        } else {
            say(fmt::format("The take is in {}", recorder_->path().string()));
        }
        fmt::print("{}", evening_.json ? report::to_json(report) : report::to_text(report));
        return status;
    }

    const Evening& evening_;
    live::JackPresence presence_;
    live::GearChoice gear_;
    live::Rig rig_;
    std::optional<Recorder> recorder_;
    Screen screen_;
    Keys keys_;
    TerminalInUse terminal_{keys_, screen_};
    report::Playing playing_;
    report::ChartRows rows_;
    int columns_ = 0;
    int times_said_ = 0;
    std::size_t said_changes_ = 0;
    int judged_beat_ = 0;
    bool said_strings_ = false;
    bool stopping_ = false;
    bool warned_of_disk_ = false;
    std::string trouble_;
};

}  // namespace

Status play(const Evening& evening) {
    const StopSignals signals;
    return EveningRun(evening).play();
}

}  // namespace compline::app
