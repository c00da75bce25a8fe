// Practising live, measured from outside: a player of its own on the JACK server sends strums at
// exact frames and records what the band plays.

#include "../../tools/jack_player.d/jack_player.hpp"
#include "live/jack_server.hpp"
#include "live/practice_process.hpp"
#include "support/comper.hpp"

#include <compline/band/place.hpp>
#include <compline/simulate/guitarist.hpp>
#include <compline/sound/render.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <csignal>
#include <memory>

using namespace compline;
using compline::jack::JackPlayer;
using compline::jack::ScriptedMessage;
using nlohmann::json;
using tests::JackServer;
using tests::PracticeProcess;
using tests::Ran;
using time::Seconds;

namespace {

// Ten times round four chords, two a bar: 40 changes. At 200 bpm a chord lasts 28,800 frames.
constexpr double bpm = 200;
constexpr int frames_a_chord = 28800;
constexpr int count_in = 57600;  // one bar
constexpr int changes = 40;
constexpr int wrong_change = 13;
constexpr int missed_change = 22;
constexpr int pushed_change = 30;

const char* const chart_text =
    "title: Forty Gates\nkey: C\nmeter: 4/4\ntempo: 200\nfeel: straight\n"
    "form: [A, A, A, A, A, A, A, A, A, A]\nsections:\n"
    "  A: |\n    Dm7 G7 | Cmaj7 A7\n";

const char* grip(int change) {
    constexpr const char* grips[] = {"x5x56x", "3x34xx", "x3x45x", "5x56xx"};
    if (change == wrong_change) return "3x44xx";   // F sharp on G7
    if (change == missed_change) return "3x34xx";  // G7 again
    return grips[change % 4];
}

/// Frames late: 0, 30 or 60 ms, and up to a period less so that strums are spread evenly over it.
int late_frames(int change, int period) {
    if (change == pushed_change) return -frames_a_chord / 4;  // the off-beat before
    return change % 3 * 1440 - change * period / changes;
}

/// What the player does, in frames after the first click.
std::vector<ScriptedMessage> script(int period, int count) {
    std::vector<simulate::ScriptedStrum> strums;
    for (int change = 0; change < count; ++change) {
        simulate::ScriptedStrum strum;
        strum.at = time::quarter_note * 2 * change;
        strum.lateness = Seconds(late_frames(change, period) / 48000.0);
        strum.shape = tests::shape(grip(change));
        strum.length = Seconds(0.35);
        strums.push_back(strum);
    }
    const time::Groove groove{time::Timeline(time::Bpm(bpm)), time::Swing::straight()};
    std::vector<ScriptedMessage> messages;
    for (const auto& timed : simulate::perform(strums, groove, guitar::Fretboard::standard())) {
        messages.push_back({count_in + std::llround(timed.at.count() * 48000), timed.message});
    }
    return messages;
}

/// Off the tune's grid, on purpose: lateness less what the script says, in milliseconds.
std::vector<double> errors(const json& report, int period) {
    std::vector<double> all;
    const auto& judged = report.at("changes");
    for (int i = 0; i < static_cast<int>(judged.size()); ++i) {
        const auto& lateness = judged[static_cast<std::size_t>(i)].at("lateness_ms");
        if (lateness.is_null() || judged[static_cast<std::size_t>(i)].at("uncertain")) continue;
        const double grid = i == pushed_change ? -frames_a_chord / 4 : 0;
        all.push_back(lateness.get<double>() - (late_frames(i, period) - grid) / 48.0);
    }
    return all;
}

constexpr double one_frame_ms = 1000.0 / 48000;

double mean(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
}

double deviation(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values) sum += std::pow(value - mean(values), 2);
    return std::sqrt(sum / static_cast<double>(values.size()));
}

double farthest(const std::vector<double>& values) {
    double most = 0;
    for (const double value : values) most = std::max(most, std::fabs(value - mean(values)));
    return most;
}

std::string expected_verdict(int change) {
    if (change == missed_change) return "missed";
    if (change == pushed_change) return "pushed";
    return change % 3 == 2 ? "late" : "on_time";
}

void check_verdicts(const json& report) {
    REQUIRE(report.at("changes").size() == changes);
    for (int i = 0; i < changes; ++i) {
        const auto& change = report.at("changes")[static_cast<std::size_t>(i)];
        if (change.at("uncertain")) continue;
        INFO("change " << i << ": " << change.dump());
        CHECK(change.at("verdict") == expected_verdict(i));
        if (i != missed_change) {
            CHECK(change.at("tones") == (i == wrong_change ? "wrong" : "right"));
        }
    }
    for (const auto& wrong : report.at("changes")[wrong_change].at("wrong")) {
        CHECK(wrong.at("note") == "F#3");
    }
}

/// A run of the program against a player: its report, what it said, and what was heard of it.
struct Run {
    Ran ran;
    json report;
    sound::Stereo heard;
    std::string take;
    bool disturbed = false;
};

struct Setting {
    std::string input = "JACK:";  // before the player's name
    std::string tolerance = "36";
    int count = changes;
    std::vector<std::string> arguments;
};

class Stage {
  public:
    Stage() : chart_(tests::text_file(folder_, "gates.yaml", chart_text)) {}

    [[nodiscard]] const std::string& chart() const { return chart_; }

    Run run(const std::string& name, const Setting& setting) {
        JackPlayer player({name, "", Seconds(40), 0.001F});
        const int period = static_cast<int>(player.period());
        player.start(script(period, setting.count));
        std::vector<std::string> arguments{
            chart_, "--out",       "JACK:" + name,    "--in",  setting.input + name, "--count-in",
            "1",    "--tolerance", setting.tolerance, "--json"};
        arguments.insert(arguments.end(), setting.arguments.begin(), setting.arguments.end());
        Run run;
        run.take = folder_.file(name + ".mid").string();
        arguments.insert(arguments.end(), {"--take", run.take});
        PracticeProcess practice(arguments);
        run.ran = practice.wait();
        run.heard = player.recording();
        run.report = run.ran.status == 0 ? json::parse(run.ran.out) : json::object();
        run.disturbed =
            player.xruns() > 0 || player.jumps() > 0 || run.report.value("xruns", 1) > 0;
        return run;
    }

    /// A machine that has other things to do loses sound, and after it the player and the program
    /// count different frames. Such a run gets two more chances, when it is not good all the same.
    template <typename Good>
    Run good_run(const std::string& name, const Setting& setting, Good good) {
        for (int chance = 0; chance < 2; ++chance) {
            auto one = run(name + std::to_string(chance), setting);
            if (!one.disturbed || one.ran.status != 0 || good(one)) return one;
        }
        return run(name + "2", setting);
    }

  private:
    tests::TemporaryFolder folder_;
    std::string chart_;
};

/// From the first sample that the player takes for a click.
std::size_t first_click(const sound::Stereo& sound) {
    const auto loud = [](float sample) { return std::fabs(sample) > 0.001F; };
    const auto left = std::find_if(sound.left.begin(), sound.left.end(), loud);
    const auto right = std::find_if(sound.right.begin(), sound.right.end(), loud);
    return static_cast<std::size_t>(
        std::min(left - sound.left.begin(), right - sound.right.begin()));
}

/// What the band plays of a passage, made without any device.
sound::Stereo rendered(const chart::Form& form, const band::Request& request) {
    const time::Groove groove{time::Timeline(time::Bpm(bpm)), time::Swing::straight()};
    const time::SampleRate rate(48000);
    const sound::Bank bank(rate);
    const auto cues = band::place(band::arrange(form, request), groove, rate,
                                  time::Frames(count_in * request.count_in_bars));
    return sound::render(cues, bank,
                         {time::Frames(0), sound::end_of(cues, bank, time::Frames(0)), 512});
}

}  // namespace

TEST_CASE("forty changes played live are judged as scripted, each late to the frame", "[live]") {
    if (!JackServer::installed()) return;
    // A long period, so that a busy machine loses no sound: the port is exact at any.
    constexpr int period = 1024;
    const JackServer server({period, 48000, false});
    Stage stage;
    std::vector<double> constants;
    for (const int count : {changes, 8, 8}) {
        Setting setting;
        setting.count = count;
        setting.arguments = {"--passes", "1"};
        if (count == 8) setting.arguments = {"--bars", "1-4", "--passes", "1"};
        const auto run = stage.good_run(
            "frame" + std::to_string(constants.size()), setting,
            [](const Run& r) { return farthest(errors(r.report, period)) <= one_frame_ms; });
        INFO(tests::shown(run.ran) << server.log());
        REQUIRE(run.ran.status == 0);
        if (count == changes) check_verdicts(run.report);
        const auto off = errors(run.report, period);
        CHECK(farthest(off) <= one_frame_ms);  // the take's ticks included
        CHECK(std::fabs(mean(off)) <= 3 * period / 48.0);
        constants.push_back(mean(off));

        if (count != changes) continue;
        // The take gives the same report as the evening did.
        const auto scored =
            tests::run_compline({"score", run.take, "--chart", stage.chart(), "--json"});
        CHECK(scored.status == 0);
        CHECK(scored.out == run.ran.out);
    }
    CHECK(constants[1] == Approx(constants[0]).margin(0.01));
    CHECK(constants[2] == Approx(constants[0]).margin(0.01));
}

TEST_CASE("through RtMidi on JACK the same changes are judged alike, to the period", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    Stage stage;
    Setting setting;
    setting.input = "RtMidi/JACK:";
    setting.tolerance =
        "47";  // all is a period or two late: the constant that calibration takes off
    setting.arguments = {"--passes", "1"};
    const auto run = stage.good_run(
        "period", setting, [](const Run& r) { return farthest(errors(r.report, 256)) <= 2.9; });
    INFO(tests::shown(run.ran) << server.log());
    REQUIRE(run.ran.status == 0);
    check_verdicts(run.report);
    const auto off = errors(run.report, 256);
    CHECK(deviation(off) <= 1.6);
    CHECK(farthest(off) <= 2.9);
    CHECK(tests::contains(run.ran.err, "knows when you play only to the period"));
}

TEST_CASE("two loops of four bars sound as computed, every sample of them, across the seam",
          "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    Stage stage;
    Setting setting;
    setting.count = 8;
    setting.arguments = {"--bars", "5-8", "--passes", "2"};
    const auto run = stage.good_run("loop", setting, [](const Run& r) { return !r.disturbed; });
    INFO(tests::shown(run.ran) << server.log());
    REQUIRE(run.ran.status == 0);
    const auto form = chart::unroll(chart::load_chart(stage.chart()));
    const auto expected = rendered(form, {{5, 8}, 2, 1});
    const std::size_t click = first_click(expected);
    const std::size_t length = count_in + 2 * 8 * frames_a_chord;
    REQUIRE(expected.left.size() > click + length);
    REQUIRE(run.heard.left.size() > length);
    std::size_t different = 0;
    for (std::size_t i = 0; i < length; ++i) {
        different += run.heard.left[i] != expected.left[click + i] ? 1 : 0;
        different += run.heard.right[i] != expected.right[click + i] ? 1 : 0;
    }
    CHECK(different == 0);

    // And the rides where arithmetic says: a beat is 14,400 frames.
    const sound::Bank bank(time::SampleRate(48000));
    const auto& ride = bank.samples(sound::ride);
    for (int beat = 0; beat < 32; ++beat) {
        const auto due = static_cast<std::int64_t>(count_in) + beat * frames_a_chord / 2 -
                         static_cast<std::int64_t>(click);
        double best = -1;
        std::int64_t best_shift = 99;
        for (std::int64_t shift = -5; shift <= 5; ++shift) {
            double sum = 0;  // of what changes from sample to sample: the attack of the stick
            for (std::size_t i = 1; i < 300; ++i) {
                const auto at = static_cast<std::size_t>(due + shift) + i;
                sum += static_cast<double>((ride[i] - ride[i - 1]) *
                                           (run.heard.right[at] - run.heard.right[at - 1]));
            }
            if (sum > best) best_shift = shift;
            best = std::max(best, sum);
        }
        CAPTURE(beat);
        CHECK(std::abs(best_shift) <= 1);
    }
}
