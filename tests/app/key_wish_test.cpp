// Charts in another key: the options, and takes that know their own.

#include "app/program.hpp"

#include <compline/chart/form.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>
#include <compline/time/units.hpp>

#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

constexpr const char* chart_text =
    "title: Four Steps\n"
    "key: F\n"
    "tempo: 120\n"
    "sections:\n"
    "  A: |\n"
    "    F7 | Bb7 | F7 | C7\n"
    "voicings: {C7: x3231x, F7: x8786x, Bb7: x1010x}\n";

/// Of each bar's seventh chord root, third and seventh, in these roots.
std::vector<midi::TimedMessage> strums(const std::vector<int>& roots) {
    std::vector<midi::TimedMessage> messages;
    for (std::size_t bar = 0; bar < roots.size(); ++bar) {
        const time::Seconds at(2.0 * static_cast<double>(bar));
        for (const int tone : {0, 4, 10}) {
            messages.push_back({at, midi::note_on(1, 48 + roots[bar] + tone, 80)});
        }
        for (const int tone : {0, 4, 10}) {
            messages.push_back(
                {at + time::Seconds(1.5), midi::note_off(1, 48 + roots[bar] + tone)});
        }
    }
    return messages;
}

/// A take of the chart in G, as practice --key G makes it.
practice::Take take_in_g() {
    auto chart = chart::read_chart(chart_text, "four-steps.yaml");
    const auto key = chart::read_key_for(chart.key, "G");
    const auto form = chart::unroll(chart::transposed(std::move(chart), key, 22).chart);
    practice::Take take;
    take.info = practice::info_of({form, roadmap::Asked::of({1, 4}, 1)}, chart_text);
    take.info->ended = true;
    take.messages = strums({7, 0, 7, 2});
    take.end = time::Seconds(8);
    return take;
}

class Evening {
  public:
    Evening() {
        const auto take = take_in_g();
        const auto form = practice::form_of(*take.info, "four-steps.yaml");
        bytes_file(folder_, "take.mid",
                   midi::write_smf(practice::to_file(take, practice::map_of(*take.info, form))));
        text_file(folder_, "four-steps.yaml", chart_text);
    }
    [[nodiscard]] std::string take() const { return path("take.mid"); }
    [[nodiscard]] std::string chart() const { return path("four-steps.yaml"); }
    [[nodiscard]] std::string path(const std::string& name) const {
        return folder_.file(name).string();
    }

  private:
    TemporaryFolder folder_;
};

nlohmann::json json_of(const Ran& ran) {
    INFO(shown(ran));
    REQUIRE(ran.status == 0);
    return nlohmann::json::parse(ran.out);
}

}  // namespace

TEST_CASE("show prints a chart in another key, and says in which it is written", "[app]") {
    const auto ran = run_compline({"show", blues(), "--key", "Ab"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    CHECK(contains(ran.out, "Blue Kettle on the Back Stairs · A♭ (written in F) · 4/4"));
    CHECK(contains(ran.out, "\n 1 A | A♭7  "));
    CHECK(run_compline({"show", blues(), "--transpose", "3"}).out == ran.out);
    CHECK(run_compline({"show", blues(), "--transpose", "-9"}).out == ran.out);
    const auto own = run_compline({"show", blues()});
    CHECK(run_compline({"show", blues(), "--key", "F"}).out == own.out);
    CHECK(run_compline({"show", blues(), "--transpose", "0"}).out == own.out);
}

TEST_CASE("show makes a horn's copy, in the key that is written for it", "[app]") {
    const auto tenor = run_compline({"show", blues(), "--for", "B♭"});
    INFO(shown(tenor));
    CHECK(contains(tenor.out, " · G, for a horn in B♭ (sounds in F) · "));
    CHECK(contains(tenor.out, "\n 1 A | G7  "));
    CHECK(run_compline({"show", blues(), "--for", "Bb"}).out == tenor.out);
    CHECK(contains(run_compline({"show", blues(), "--for", "Eb"}).out, " · D, for a horn in E♭"));
    CHECK(contains(run_compline({"show", blues(), "--for", "F"}).out, " · C, for a horn in F"));
    const auto moved = run_compline({"show", blues(), "--for", "Eb", "--key", "Bb"});
    CHECK(contains(moved.out, " · G, for a horn in E♭ (sounds in B♭) · "));
}

TEST_CASE("with a capo the shapes that a guitarist thinks of stand below the chords", "[app]") {
    const auto ran = run_compline({"show", blues(), "--capo", "1"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "\ncapo 1: the shapes, below the chords, are in E\n"));
    const auto row = ran.out.find("\n 5 A | B♭7  ");
    REQUIRE(row != std::string::npos);
    const auto below = ran.out.find('\n', row + 1);
    CHECK(ran.out.substr(below, 12) == "\n       A7  ");
    const auto some = run_compline({"show", blues(), "--capo", "1", "--bars", "5-8"});
    CHECK(contains(some.out, ran.out.substr(row, below - row)));
    CHECK(contains(some.out, ran.out.substr(below, 12)));
    const auto plan = run_compline({"plan", blues(), "--capo", "1", "--bars", "1-4"});
    INFO(shown(plan));
    CHECK(contains(plan.out, "   F7 [E7]  "));
    CHECK_FALSE(contains(run_compline({"plan", blues(), "--bars", "1-4"}).out, "["));
}

TEST_CASE("a copy of a copy is made from what is written, so that its names are good", "[app]") {
    const auto salt = our_chart("salt-on-the-harbour-steps");  // in D minor, with an E♭9
    CHECK(contains(run_compline({"show", salt, "--key", "Ebm"}).out, "| E9  "));
    const auto copy = run_compline({"show", salt, "--key", "Ebm", "--for", "Eb"});
    INFO(shown(copy));
    CHECK(contains(copy.out, " · Cm, for a horn in E♭ (sounds in E♭m) · "));
    CHECK(contains(copy.out, "| D♭9  "));
    const auto capo = run_compline({"show", salt, "--key", "Ebm", "--capo", "1"});
    CHECK(contains(capo.out, "  E♭9\n"));
    CHECK_FALSE(contains(capo.out, "D♯9"));
}

TEST_CASE("a page of voicings with a capo has the shapes beside the chords", "[app]") {
    const Evening evening;
    const auto page = evening.path("page.svg");
    const auto ran = run_compline({"plan", blues(), "--capo", "1", "--key", "G", "--svg", page});
    INFO(shown(ran));
    REQUIRE(ran.status == 0);
    const auto svg = files::load_text(page);
    CHECK(contains(svg, "G (written in F) · 4/4"));
    CHECK(contains(svg, "7 [F♯7]"));
}

TEST_CASE("plan moves the voicings that a chart asks for, and says which it leaves out", "[app]") {
    const Evening evening;
    const auto ran = run_compline({"plan", evening.chart(), "--key", "G"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.err, "voicing 3 of 3 is left out: it has an open string"));
    CHECK(contains(ran.out, "x5453x"));
    CHECK(contains(ran.out, "x-10-9-10-8-x"));
}

TEST_CASE("a key that a chart cannot be in is refused in words, by every command", "[app]") {
    const Evening evening;
    const auto out = evening.path("out.wav");
    const std::vector<std::vector<std::string>> commands = {
        {"show", evening.chart()},
        {"plan", evening.chart()},
        {"render", evening.chart(), out},
        {"practice", evening.chart()},
        {"score", evening.take(), "--chart", evening.chart()}};
    const auto refusal = [](std::vector<std::string> command,
                            const std::vector<std::string>& options) {
        command.insert(command.end(), options.begin(), options.end());
        const auto ran = run_compline(command);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        return ran.err;
    };
    for (const auto& command : commands) {
        INFO(command.front());
        CHECK(contains(refusal(command, {"--key", "Gm"}),
                       "--key: \"Gm\" is no key for a tune in F major"));
        CHECK(contains(refusal(command, {"--key", "X"}), "--key: \"X\" is not a key"));
        CHECK(contains(refusal(command, {"--transpose", "12"}),
                       "--transpose 12: expected a number from -11 to 11"));
        CHECK(contains(refusal(command, {"--key", "G", "--transpose", "2"}),
                       "--key and --transpose both say the key: leave out one of them"));
    }
    CHECK(contains(refusal({"show", blues()}, {"--for", "G"}),
                   "\"G\" is none of the keys that horns are in: write Bb, Eb or F"));
    CHECK(contains(refusal({"show", blues()}, {"--for", "Bb", "--capo", "2"}), "leave out one"));
    CHECK(contains(refusal({"show", "--tones", "F7"}, {"--key", "G"}), "no chart was given"));
    CHECK(contains(refusal({"score", evening.take()}, {"--key", "G"}),
                   "--key is for a chart: give it with --chart, or leave the key to the take"));
    CHECK(contains(refusal({"render", evening.take(), out}, {"--key", "G"}), "is a take"));
}

TEST_CASE("a take that was played in another key is judged in it, without being told", "[app]") {
    const Evening evening;
    const auto alone = run_compline({"score", evening.take(), "--json"});
    const auto report = json_of(alone);
    CHECK(alone.err.empty());
    CHECK(report["chart"]["key"] == "G");
    CHECK(report["totals"]["right_tones"] == 4);
    CHECK(report["changes"][3]["to"] == "D7");
    const auto beside =
        run_compline({"score", evening.take(), "--chart", evening.chart(), "--json"});
    CHECK(json_of(beside)["chart"]["key"] == "G");
    CHECK(beside.err.empty());
    const auto asked = run_compline(
        {"score", evening.take(), "--chart", evening.chart(), "--key", "Ab", "--json"});
    CHECK(json_of(asked)["chart"]["key"] == "Ab");
    CHECK(contains(asked.err, "bar 1 was played to G7; "));
    CHECK(contains(asked.err, "four-steps.yaml has Ab7"));
}

TEST_CASE("the line that loops the weakest bars keeps the key", "[app]") {
    const Evening evening;
    const auto ran =
        run_compline({"score", evening.take(), "--chart", evening.chart(), "--key", "Ab"});
    INFO(shown(ran));
    CHECK(contains(ran.out, "Four Steps   A♭ (written in F)   4/4"));
    CHECK(contains(ran.out, "--bars 1-4 --key Ab\n"));
}

TEST_CASE(
    "render of a take in another key plays what a chart written in that key would have it play",
    "[app]") {
    const Evening evening;
    auto written_in_g = take_in_g();
    written_in_g.info->chart_text =
        "title: Four Steps\nkey: G\ntempo: 120\nsections:\n  A: G7 | C7 | G7 | D7\n";
    written_in_g.info->key.clear();
    auto in_f = take_in_g();
    in_f.info->key.clear();
    const auto rendered = [&](const practice::Take& take) {
        const TemporaryFolder folder;
        const auto form = practice::form_of(*take.info, "four-steps.yaml");
        const auto file = bytes_file(
            folder, "take.mid",
            midi::write_smf(practice::to_file(take, practice::map_of(*take.info, form))));
        const auto band = folder.file("band.mid").string();
        const auto ran = run_compline({"render", file, band});
        INFO(shown(ran));
        REQUIRE(ran.status == 0);
        return files::load_bytes(band);
    };
    CHECK(rendered(take_in_g()) == rendered(written_in_g));
    CHECK(rendered(take_in_g()) != rendered(in_f));
}

TEST_CASE("a take whose key is none for its chart is refused", "[app]") {
    const Evening evening;
    auto take = take_in_g();
    take.info->key = "Gm";
    const auto form = chart::unroll(chart::read_chart(chart_text, "four-steps.yaml"));
    TemporaryFolder folder;
    const auto bad =
        bytes_file(folder, "bad.mid",
                   midi::write_smf(practice::to_file(take, {form, roadmap::Asked::of({1, 4}, 1)})));
    const auto ran = run_compline({"score", bad});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, "its key: \"Gm\" is no key for a tune in F major"));
}
