// compline render --ladder, and what is no ladder.

#include "app/program.hpp"

#include <compline/midi/smf.hpp>

#include <string>
#include <vector>

using namespace compline;
using namespace compline::tests;

namespace {

Ran render(const std::string& out, std::vector<std::string> options) {
    options.insert(options.begin(), {"render", our_chart("blue-kettle-on-the-back-stairs"), out});
    return run_compline(options);
}

void refused(const Ran& ran, const std::string& words) {
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK(contains(ran.err, words));
}

}  // namespace

TEST_CASE("render plays a ladder: twice in each tempo, a bar of sticks between, then the section",
          "[app]") {
    const TemporaryFolder folder;
    const auto out = folder.file("ladder.mid").string();
    const auto ran = render(out, {"--bars", "9-12", "--ladder", "96-102"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.out == out +
                         ": bars 9-12 twice in each tempo, then 1-12 once, of Blue Kettle on the "
                         "Back Stairs at 96 to 102 bpm, after 2 bars of count-in\n");
    const auto bars = [](int count, double bpm) { return count * 4 * 60.0 / bpm; };
    const double all = bars(2 + 8, 96) + bars(1 + 8, 100) + bars(1 + 8, 102) +
                       bars(1 + 12 + 2, 102);  // the tune's last chord rings
    CHECK(midi::flatten(midi::read_smf(files::load_bytes(out)).file).length.count() ==
          Approx(all).epsilon(1e-4));
    const auto again = folder.file("again.mid").string();
    CHECK(render(again, {"--bars", "9-12", "--ladder", "96-102"}).status == 0);
    CHECK(files::load_bytes(out) == files::load_bytes(again));
    // With a guitar and a silence in it.
    CHECK(render(folder.file("all.mid").string(), {"--bars", "9-12", "--ladder", "96-102",
                                                   "--voicings", "shells", "--silence", "2:2"})
              .status == 0);
}

TEST_CASE("what a ladder says itself, and what is none, is refused with a cure", "[app]") {
    const TemporaryFolder folder;
    const auto with = [&](std::vector<std::string> options) {
        return render(folder.file("x.mid").string(), std::move(options));
    };
    refused(with({"--ladder", "132-96"}), "--ladder \"132-96\": a ladder goes up: write 96-132");
    refused(with({"--ladder", "96-500"}), "400 is the fastest tempo");
    refused(with({"--ladder", "96-132", "--tempo", "90"}), "leave out --tempo");
    refused(with({"--ladder", "96-132", "--times", "3"}), "leave out --times");
    refused(with({"--ladder", "96-132", "--road-map", "head"}), "leave out --road-map");
    refused(with({"--ladder", "96-132", "--each-time", "up a fourth"}), "leave out --each-time");
    CHECK_FALSE(std::filesystem::exists(folder.file("x.mid")));
    CHECK(with({"--ladder", "96-97", "--bars", "1", "--road-map", "none"}).status == 0);
    const auto free = text_file(folder, "free.yaml",
                                "title: Free\nkey: F\ntempo: 120\nform: [A, B]\nsections:\n"
                                "  A: F7 | Bb7\n  B: {tempo: rubato, bars: Gm7 | C7}\n");
    const auto out = folder.file("free.mid").string();
    refused(run_compline({"render", free, out, "--ladder", "96-132"}),
            "--ladder: bar 3 is rubato, which has no tempo to raise: choose other bars by --bars");
    CHECK(run_compline({"render", free, out, "--ladder", "96-97", "--bars", "1-2"}).status == 0);
}

TEST_CASE("a ladder needs somebody who listens, and a chart or changes like all practice",
          "[app]") {
    refused(run_compline({"practice", our_chart("blue-kettle-on-the-back-stairs"), "--ladder",
                          "96-132", "--in", "none"}),
            "--ladder is of no use with --in none: nobody listens; compline render --ladder writes "
            "one to play to");
    refused(
        run_compline({"practice", "--ladder", "96-132", "--changes", "Dm7 | G7", "--times", "2"}),
        "leave out --times");
}
