// What cannot be played, or cannot have been: words, status 2, and no file.

#include "app/program.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

constexpr const char* chart_text =
    "title: Four Steps\nkey: C\ntempo: 140\nsections:\n  A: Dm7 | G7 | Cmaj7 | A7\n";

/// Its text, and what is said of it later.
std::vector<std::uint8_t> take_of(const std::string& text, const std::string& later = "") {
    midi::File file;
    file.division = practice::take_division;
    file.tracks.resize(1);
    auto& track = file.tracks[0];
    track.add(0, midi::text_event(midi::meta::text, text));
    track.add(0, midi::text_event(midi::meta::marker, practice::start_marker));
    if (!later.empty()) track.add(0, midi::text_event(midi::meta::text, later));
    track.add(0, midi::note_on(1, 60, 80));
    track.add(960, midi::note_off(1, 60));
    return midi::write_smf(file);
}

std::string a_text() {
    practice::TakeInfo info;
    info.chart_text = chart_text;
    info.chart_hash = "0123456789abcdef";
    info.asked = roadmap::Asked::of({1, 4}, 3);
    info.asked.tempo = time::Bpm(140);
    return practice::to_text(info);
}

std::string with(std::string text, const std::string& piece, const std::string& instead) {
    const auto at = text.find(piece);
    REQUIRE(at != std::string::npos);
    return text.replace(at, piece.size(), instead);
}

/// Score and render say no to a take, and why.
void refuses(const std::vector<std::uint8_t>& take, const std::string& words,
             const std::vector<std::string>& score = {}) {
    const TemporaryFolder folder;
    const auto path = bytes_file(folder, "x.mid", take);
    std::vector<std::string> arguments{"score", path};
    arguments.insert(arguments.end(), score.begin(), score.end());
    const auto out = folder.file("out.wav");
    std::vector<std::vector<std::string>> commands{arguments};
    if (score.empty()) commands.push_back({"render", path, out.string()});
    for (const auto& command : commands) {
        const auto ran = run_compline(command);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        CHECK(contains(ran.err, "x.mid"));
        auto line = ran.err;  // as it would be on a wide terminal
        std::replace(line.begin(), line.end(), '\n', ' ');
        CHECK(contains(line, words));
        CHECK_FALSE(std::filesystem::exists(out));
    }
}

/// practice says no before it looks for any device, and leaves no take.
void practice_refuses(const std::string& chart, const std::vector<std::string>& options,
                      const std::string& words) {
    const TemporaryFolder folder;
    const auto take = folder.file("take.mid");
    std::vector<std::string> arguments{"practice", chart, "--take", take.string()};
    arguments.insert(arguments.end(), options.begin(), options.end());
    const auto ran = run_compline(arguments);
    INFO(shown(ran));
    CHECK(ran.status == 2);
    auto line = ran.err;
    std::replace(line.begin(), line.end(), '\n', ' ');
    CHECK(contains(line, words));
    CHECK_FALSE(std::filesystem::exists(take));
}

const char* const version_1 =
    R"({"schema":"compline.take/1","chart":"0123456789abcdef","tempo_bpm":132.0,)"
    R"("route":[{"bars":[1,4],"name":"head"}],"times_through":1,"silent_bars":[],)"
    R"("calibration":{"constant_ms":0.0,"cycles":0.0},)"
    R"("settings":{"rhythm":"free","strictness":"working"}})";

}  // namespace

TEST_CASE("practice refuses more bars than anybody plays", "[app]") {
    const auto thirty_two = our_chart("three-lamps-on-weir-lane");
    practice_refuses(thirty_two, {"--times", "1000", "--road-map", "none"},
                     "32000 bars: 20000 are the most");
}

TEST_CASE("practice refuses a silence that the music has no room for", "[app]") {
    const std::vector<std::string> once{"--times", "1", "--silence"};
    const auto asked = [&](const std::string& silence) {
        auto options = once;
        options.push_back(silence);
        return options;
    };
    practice_refuses(blues(), asked("4:13"),
                     "a silence of 13 bars: it is longer than all that is played, 12 bars");
    practice_refuses(blues(), asked("12:4"),
                     "a silence after 12 bars: it would never come: 12 bars are played");
    practice_refuses(
        blues(), asked("1:1 times"),
        "a silence after 1 time through: it would never come: 1 time through is played");
}

TEST_CASE("a take that decides the impossible is refused, and the bar is named", "[app]") {
    const auto decided = [](const std::string& json) {
        return take_of(a_text(), practice::decision_text + json);
    };
    refuses(decided(R"({"from_bar":13,"tempo_bpm":150})"),
            "a decision is to count from bar 13 on: bars 1 to 12 are still to come");
    refuses(decided(R"({"from_bar":9,"tempo_bpm":900})"), "from bar 9: tempo_bpm: 900, expected");
    refuses(decided(R"({"from_bar":1,"stopped":true})"),
            "a decision is to count from bar 1 on: bars 2 to 13 are still to come");
    refuses(decided(R"({"from_bar":9})"), "there is no \"stopped\"");
    refuses(decided(R"({"from_bar":9,)"), "it is damaged");
}

TEST_CASE("a take of a later version, or damaged, is neither judged nor rendered", "[app]") {
    refuses(take_of(with(a_text(), "take/2", "take/3")), "it is a compline.take/3");
    refuses(take_of(with(a_text(), "\"asked\":{", "\"asked\":")), "it is damaged");
    refuses(take_of(with(a_text(), "[1,4]", "[1,5]")),
            "bars 1 to 5 are to be played: the chart has bars 1 to 4");
    refuses(take_of(with(a_text(), "\"times\":3", "\"times\":19999")),
            "the road map has 79996 bars: 20000 are the most");
    refuses(take_of(with(a_text(), "Cmaj7", "Cmaj77")), "Cmaj77");
}

TEST_CASE("a take that ended and does not say where is read as far as it goes", "[app]") {
    const TemporaryFolder folder;
    const auto endless = with(a_text(), "\"times\":3}]", "\"times\":3}],\"goes_on\":true");
    const auto take = bytes_file(folder, "x.mid", take_of(endless, "compline:ended {}"));
    CHECK(run_compline({"score", take}).status == 0);
    const auto ran = run_compline({"render", take, folder.file("out.mid").string()});
    INFO(shown(ran));
    CHECK(ran.status == 0);
}

TEST_CASE("a take that carries no chart is judged beside one and not rendered", "[app]") {
    const TemporaryFolder folder;
    const auto chart = text_file(folder, "four-steps.yaml", chart_text);
    const std::vector<std::string> beside{"--chart", chart};
    const auto out = folder.file("out.wav");
    const auto old = bytes_file(folder, "old.mid", take_of(version_1));
    const auto rendered = run_compline({"render", old, out.string()});
    INFO(shown(rendered));
    CHECK(rendered.status == 2);
    CHECK(contains(rendered.err, "old.mid: it is a compline.take/1, which carries no chart"));
    const auto foreign = bytes_file(folder, "foreign.mid", take_of("hello"));
    const auto elsewhere = run_compline({"render", foreign, out.string()});
    INFO(shown(elsewhere));
    CHECK(elsewhere.status == 2);
    CHECK(contains(elsewhere.err, "foreign.mid: it carries no chart"));
    CHECK_FALSE(std::filesystem::exists(out));
    CHECK(run_compline({"score", old, "--chart", chart}).status == 0);

    refuses(take_of(with(version_1, "[1,4]", "[1,5]")),
            "bars 1 to 5 are to be played: the chart has bars 1 to 4", beside);
    refuses(take_of(with(version_1, "[1,4]", "[4,1]")), "expected the first bar first", beside);
    refuses(take_of(with(version_1, R"({"bars":[1,4],"name":"head"})", "")),
            "expected a time through at least", beside);
    refuses(take_of(with(version_1, "[1,4]", "[1,900000]")), "900000, expected", beside);
}
