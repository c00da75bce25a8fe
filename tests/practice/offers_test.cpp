// What is offered for a whole take that was played to something else.

#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/chart/transpose.hpp>
#include <compline/practice/offers.hpp>
#include <compline/simulate/played.hpp>

using namespace compline;
using namespace compline::practice;
using namespace compline::tests;
using time::Seconds;

namespace {

constexpr const char* chart_text =
    "title: Eleven Steps Down\n"
    "key: F\n"
    "tempo: 132\n"
    "sections:\n"
    "  A: |\n"
    "    Fmaj7 | Em7b5 A7 | Dm7 | Cm7 F7\n"
    "    Bbmaj7 | Bbm7 Eb7 | Am7 D7 | Gm7 C7\n";

chart::Form form() { return chart::unroll(chart::read_chart(chart_text, "eleven-steps.yaml")); }

roadmap::RoadMap road(double tempo = 132, const chart::Form& tune = form()) {
    auto asked = roadmap::Asked::of(tune.whole(), 3);
    asked.tempo = time::Bpm(tempo);
    return {tune, asked};
}

/// A file from elsewhere, played to that road, so much later.
Take played(const roadmap::RoadMap& map, Seconds later = Seconds(0)) {
    simulate::Habits habits;
    Take take;
    take.messages = simulate::perform(simulate::play(map, habits, 1).script, map,
                                      guitar::Fretboard::standard());
    for (auto& timed : take.messages) timed.at = timed.at + later;
    std::erase_if(take.messages, [](const auto& timed) { return timed.at < Seconds(-0.05); });
    take.end = map.time_of(map.end()) + later;
    return take;
}

Take higher(Take take, int semitones) {
    for (auto& timed : take.messages) {
        timed.message.data1 = static_cast<std::uint8_t>(timed.message.data1 + semitones);
    }
    return take;
}

/// A take of ours says when it began, and to what.
Take ours(Take take) {
    take.info = info_of(road(), chart_text);
    take.info->ended = true;
    return take;
}

Hint hint_for(const Take& take, const ScoreRequest& request = {},
              const chart::Form& tune = form()) {
    const auto report = hear_and_judge(tune, take, request);
    return report.hints.empty() ? Hint{} : report.hints.front();
}

std::string option_for(const Take& take, const ScoreRequest& request = {},
                       const chart::Form& tune = form()) {
    return hint_for(take, request, tune).option;
}

constexpr Seconds a_bar{4 * 60.0 / 132};

}  // namespace

TEST_CASE("nothing is offered for a take that fits, nor for one that hardly plays", "[offers]") {
    CHECK(option_for(played(road())).empty());
    CHECK(option_for(ours(played(road()))).empty());
    auto sparse = played(road(), a_bar);
    sparse.messages.resize(12);
    CHECK(option_for(sparse).empty());
    CHECK(option_for(Take{}).empty());
}

TEST_CASE("a take that began by bars late or early is offered the offset, beside one that is asked",
          "[offers]") {
    CHECK(option_for(played(road(), a_bar * 2)) == "--offset 3636");
    CHECK(option_for(played(road(), -a_bar)) == "--offset -1818");
    const auto hint = hint_for(played(road(), a_bar));
    CHECK(hint.kind == HintKind::offset);
    CHECK(hint.option == "--offset 1818");
    CHECK(hint.of == 39);
    CHECK(hint.right == hint.of);
    CHECK(hint.words ==
          "It fits with bar 1 a bar later: 39 of 39 changes are right then, and 0 "
          "now: --offset 1818");
    ScoreRequest request;
    request.offset = Seconds(2);
    CHECK(option_for(played(road(), a_bar + Seconds(2)), request) == "--offset 3818");
    // By what is offered it fits.
    request.offset = Seconds(3.818);
    CHECK(option_for(played(road(), a_bar + Seconds(2)), request).empty());
}

TEST_CASE("a take that is late throughout is offered the milliseconds", "[offers]") {
    const auto half = hint_for(played(road(), Seconds(0.5 * 60 / 132)));
    CHECK(half.words.find("bar 1 half a beat (2") != std::string::npos);
    const auto late = hint_for(played(road(), Seconds(0.12)));
    REQUIRE(late.option.rfind("--offset ", 0) == 0);
    CHECK(std::stod(late.option.substr(9)) == Approx(120).margin(20));
}

TEST_CASE("a capo, or the chart in another key, is offered the key", "[offers]") {
    const auto hint = hint_for(higher(played(road()), 2));
    CHECK(hint.option == "--transpose 2");
    CHECK(hint.words.find("It fits two semitones higher, in G: ") == 0);
    CHECK(option_for(higher(played(road()), -3)) == "--transpose -3");
    // By the key in which it is written, whatever key is asked for now.
    const auto in_g = chart::unroll(
        chart::transposed(form().chart, chart::read_key_for(form().chart.key, "G"), 24).chart);
    CHECK(option_for(higher(played(road()), 5), {}, in_g) == "--transpose 5");
    CHECK(option_for(played(road()), {}, in_g) == "--transpose 0");
    // A tone is judged as it sounds.
    const auto report = hear_and_judge(in_g, higher(played(road()), 2), {});
    CHECK(right_changes(report).right == right_changes(report).of);
}

TEST_CASE("half and twice the tempo, and a few per cent, are offered the tempo", "[offers]") {
    CHECK(option_for(played(road(66))) == "--tempo 66");
    CHECK(option_for(played(road(264))) == "--tempo 264");
    const auto slow = hint_for(played(road(126.7)));
    CHECK(slow.option == "--tempo 126.7");
    CHECK(slow.words.find("It fits 4 % slower: ") == 0);
    CHECK(option_for(played(road(139.4))) == "--tempo 139.4");
}

TEST_CASE("for a take of ours nothing but a key is offered", "[offers]") {
    const auto hint = hint_for(ours(higher(played(road()), 2)));
    CHECK(hint.option == "--transpose 2");
    CHECK(hint.words.find("by its chart's file (--chart)") != std::string::npos);
    CHECK(option_for(ours(played(road(), a_bar))).empty());
    CHECK(option_for(ours(played(road(126.7)))).empty());
}

TEST_CASE("the whole take is looked at where some bars of it are asked for", "[offers]") {
    ScoreRequest request;
    request.passage = chart::Passage{5, 8};
    request.whole_form = true;
    CHECK(option_for(played(road(), a_bar * 2), request) == "--offset 3636");
}

TEST_CASE("another chart is offered that a take fits, and none that it fits no better",
          "[offers]") {
    const auto other = chart::unroll(
        chart::read_chart("title: Up the Lane\nkey: D\ntempo: 150\nsections:\n  A: |\n"
                          "    Dmaj7 | G7 | F#m7 | B7 | Em7 | A7 | Ebm7 Ab7 | Em7 A7\n",
                          "lane.yaml"));
    const std::vector<OtherChart> charts = {{"a lane.yaml", other}, {"steps.yaml", form()}};
    const auto take = played(road(150, other));
    const auto report = hear_and_judge(form(), take, {});
    const auto hint = offer_among(charts, take, {}, report);
    REQUIRE(hint);
    CHECK(hint->option == "--chart 'a lane.yaml'");
    CHECK(hint->words.find("It fits Up the Lane: ") == 0);
    CHECK(!offer_among(charts, ours(take), {}, report));
    const auto right = played(road());
    CHECK(!offer_among(charts, right, {}, hear_and_judge(form(), right, {})));
}
