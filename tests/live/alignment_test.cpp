// Practising live, measured from outside: a player of its own on the JACK server sends strums at
// exact frames and records what the band plays.

#include "../../tools/jack_player.d/jack_player.hpp"
#include "../../tools/live.d/forty_changes.hpp"
#include "live/jack_server.hpp"
#include "live/practice_process.hpp"

#include <compline/band/place.hpp>
#include <compline/files/file_io.hpp>
#include <compline/sound/render.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

using namespace compline;
using compline::jack::JackPlayer;
using compline::outside::FortyChanges;
using compline::outside::spread;
using nlohmann::json;
using tests::JackServer;
using tests::PracticeProcess;
using tests::Ran;
using time::Seconds;

namespace {

constexpr int changes = FortyChanges::changes;
constexpr int count_in = FortyChanges::count_in;
/// Those that must be judged for sure, of so many: the missed one has no lateness, and an
/// interruption makes the seconds around it uncertain.
constexpr std::size_t enough(int count) { return static_cast<std::size_t>(count) * 3 / 4; }

constexpr double one_frame_ms = 1000.0 / 48000;

std::string expected_verdict(int change) {
    if (change == FortyChanges::missed_change) return "missed";
    if (change == FortyChanges::pushed_change) return "pushed";
    return change % 3 == 2 ? "late" : "on_time";
}

void check_verdicts(const json& report) {
    REQUIRE(report.at("changes").size() == changes);
    for (int i = 0; i < changes; ++i) {
        const auto& change = report.at("changes")[static_cast<std::size_t>(i)];
        if (change.at("uncertain")) continue;
        INFO("change " << i << ": " << change.dump());
        CHECK(change.at("verdict") == expected_verdict(i));
        if (i != FortyChanges::missed_change) {
            CHECK(change.at("tones") == (i == FortyChanges::wrong_change ? "wrong" : "right"));
        }
    }
    for (const auto& wrong : report.at("changes")[FortyChanges::wrong_change].at("wrong")) {
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
    std::string history;  ///< what the program says of it afterwards
};

struct Setting {
    std::string input = "JACK:";  // before the player's name
    std::string tolerance = "36";
    int count = changes;
    std::vector<std::string> arguments;
};

class Stage {
  public:
    Stage() : chart_(tests::text_file(folder_, "gates.yaml", FortyChanges::chart)) {}

    [[nodiscard]] const std::string& chart() const { return chart_; }
    [[nodiscard]] std::string page() const { return folder_.file("page.html").string(); }

    Run run(const std::string& name, const Setting& setting) {
        JackPlayer player({name, "", Seconds(40), 0.001F});
        const FortyChanges evening{static_cast<int>(player.period())};
        player.start(evening.script(setting.count));
        std::vector<std::string> arguments{chart_,
                                           "--out",
                                           "JACK:" + name,
                                           "--in",
                                           setting.input + name,
                                           "--count-in",
                                           "1",
                                           "--tolerance",
                                           setting.tolerance,
                                           "--against",
                                           "beat",
                                           "--json",
                                           "--midi-pickup",
                                           "cycles=0"};
        arguments.insert(arguments.end(), setting.arguments.begin(), setting.arguments.end());
        Run run;
        run.take = folder_.file(name + ".mid").string();
        arguments.insert(arguments.end(), {"--take", run.take});
        PracticeProcess practice(arguments);
        run.ran = practice.wait();
        run.history = tests::run_compline({"history"}).out;
        run.heard = player.recording();
        run.report = run.ran.status == 0 ? json::parse(run.ran.out) : json::object();
        run.disturbed = player.xruns() > 0 || run.report.value("xruns", 1) > 0;
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
sound::Stereo rendered(const roadmap::RoadMap& map) {
    const time::SampleRate rate(48000);
    const sound::Bank bank(rate);
    const auto cues =
        band::place(band::arrange(map, {}), map, rate, time::Frames(count_in * map.count_in_bars()),
                    {}, time::Frames(0));
    return sound::render(cues, bank,
                         {time::Frames(0), sound::end_of(cues, bank, time::Frames(0)), 512});
}

}  // namespace

TEST_CASE("forty changes played live are judged as scripted, each late to the frame",
          "[live][lateness]") {
    if (!JackServer::installed()) return;
    constexpr int period = 256;
    const JackServer server({period, 48000, true});  // real-time: other tests run beside this one
    Stage stage;
    const auto off = [](const Run& r) { return spread(FortyChanges{period}.errors(r.report)); };
    std::vector<double> constants;
    for (const int count : {changes, 8, 8}) {
        Setting setting;
        setting.count = count;
        setting.arguments = {"--times", "1"};
        if (count == 8) setting.arguments = {"--bars", "1-2", "--times", "1"};
        if (constants.size() == 2) {
            const std::vector<std::string> by_plan{"--voicings", "shells", "--html", stage.page(),
                                                   "--replace"};
            setting.arguments.insert(setting.arguments.end(), by_plan.begin(), by_plan.end());
        }
        const auto run =
            stage.good_run("frame" + std::to_string(constants.size()), setting, [&](const Run& r) {
                return off(r).count >= enough(count) && off(r).farthest <= one_frame_ms;
            });
        INFO(tests::shown(run.ran) << server.log());
        REQUIRE(run.ran.status == 0);
        if (count == changes) check_verdicts(run.report);
        CHECK(off(run).count >= enough(count));
        CHECK(off(run).farthest <= one_frame_ms);  // the take's ticks included
        CHECK(std::fabs(off(run).mean) <= 3 * period / 48.0);
        constants.push_back(off(run).mean);

        if (count != changes) continue;
        INFO(run.history);
        CHECK(tests::contains(run.history, ": last played today, 1 evening"));
        // The take gives the same report as the evening did.
        const auto scored =
            tests::run_compline({"score", run.take, "--chart", stage.chart(), "--json"});
        CHECK(scored.status == 0);
        CHECK(scored.out == run.ran.out);
    }
    CHECK(constants[1] == Approx(constants[0]).margin(0.01));
    CHECK(constants[2] == Approx(constants[0]).margin(0.01));
    // Beside the voicings that were shown.
    CHECK(tests::contains(files::load_text(stage.page()), "Your fingers went "));
}

TEST_CASE("through RtMidi on JACK the same changes are judged alike, to the period",
          "[live][lateness]") {
    if (!JackServer::installed()) return;
    constexpr int period = 256;
    const JackServer server({period, 48000, true});  // real-time: other tests run beside this one
    Stage stage;
    Setting setting;
    setting.input = "RtMidi/JACK:";
    setting.tolerance =
        "47";  // all is a period or two late: the constant that calibration takes off
    setting.arguments = {"--times", "1"};
    const auto off = [](const Run& r) { return spread(FortyChanges{period}.errors(r.report)); };
    const auto run = stage.good_run("period", setting, [&](const Run& r) {
        return off(r).count >= enough(changes) && off(r).farthest <= 2.9 && off(r).deviation <= 1.6;
    });
    INFO(tests::shown(run.ran) << server.log());
    REQUIRE(run.ran.status == 0);
    check_verdicts(run.report);
    CHECK(off(run).count >= enough(changes));
    CHECK(off(run).deviation <= 1.6);
    CHECK(off(run).farthest <= 2.9);
    CHECK(tests::contains(run.ran.err, "knows when you play only to the period"));
}

TEST_CASE("two loops of four bars sound as computed, every sample of them, across the seam",
          "[live][lateness]") {
    if (!JackServer::installed()) return;
    const JackServer server({256, 48000, true});
    Stage stage;
    const auto form = chart::unroll(chart::load_chart(stage.chart()));
    auto asked = roadmap::Asked::of({5, 8}, 2);
    asked.tempo = time::Bpm(FortyChanges::bpm);
    asked.swing = roadmap::AskedSwing{1.0};
    asked.count_in_bars = 1;
    const auto expected = rendered({form, asked});
    const std::size_t click = first_click(expected);
    const std::size_t length = count_in + 2 * 16 * FortyChanges::frames_a_beat;
    REQUIRE(expected.left.size() > click + length);
    const auto different = [&](const Run& run) {
        if (run.heard.left.size() <= length) return length;
        std::size_t found = 0;
        for (std::size_t i = 0; i < length; ++i) {
            if (run.heard.left[i] != expected.left[click + i] ||
                run.heard.right[i] != expected.right[click + i])
                ++found;
        }
        return found;
    };
    Setting setting;
    setting.count = 16;
    setting.arguments = {"--bars", "5-8", "--times", "2"};
    const auto run =
        stage.good_run("loop", setting, [&](const Run& r) { return different(r) == 0; });
    INFO(tests::shown(run.ran) << server.log());
    REQUIRE(run.ran.status == 0);
    REQUIRE(run.heard.left.size() > length);
    CHECK(different(run) == 0);

    // And the rides where arithmetic says.
    const sound::Bank bank(time::SampleRate(48000));
    const auto& ride = bank.samples(sound::ride);
    for (int beat = 0; beat < 32; ++beat) {
        const auto due = static_cast<std::int64_t>(count_in) + beat * FortyChanges::frames_a_beat -
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
