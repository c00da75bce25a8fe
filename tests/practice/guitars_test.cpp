// Guitars that are not in standard tuning: what was played is heard on their own strings and frets.

#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/practice/scoring.hpp>
#include <compline/practice/take_file.hpp>
#include <compline/simulate/guitarist.hpp>

using namespace compline;
using namespace compline::practice;
using time::Seconds;

namespace {

constexpr const char* chart_text =
    "title: Three Chords\nkey: C\ntempo: 120\nsections:\n  A: Dm7 | G7 | Cmaj7 | Cmaj7\n";

struct Instrument {
    const char* tuning;
    int capo;
};

guitar::Fretboard neck(const Instrument& instrument) {
    return {guitar::read_tuning(instrument.tuning), 24, instrument.capo};
}

/// A grip on strings 4, 3 and 2 by the notes that are to sound.
guitar::Shape grip(const guitar::Fretboard& board, const std::vector<int>& notes) {
    guitar::Shape shape;
    shape.strings = board.strings();
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const int string = 4 - static_cast<int>(i);
        const auto fret = board.fret(string, harmony::MidiNote(notes[i]));
        REQUIRE(fret);
        shape.on(string) = *fret;
    }
    return shape;
}

/// Dm7, G7 with F♯ on string 2, Cmaj7; each struck on 1.
Take played_on(const guitar::Fretboard& board) {
    auto info = TakeInfo();
    info.chart_text = chart_text;
    info.asked = roadmap::Asked::of({1, 4}, 1);
    info.asked.tempo = time::Bpm(120);
    info.fretboard = board;
    info.delay = {Seconds(0), 0};
    info.ended = true;
    Take take;
    take.info = info;
    const auto form = form_of(info, "chart");
    const auto map = map_of(info, form);
    const std::vector<std::vector<int>> notes = {
        {53, 60, 65}, {53, 59, 66}, {52, 59, 64}, {52, 59, 64}};
    std::vector<simulate::ScriptedStrum> script;
    for (int bar = 0; bar < 4; ++bar) {
        script.push_back({time::quarter_note * (4 * bar), Seconds(0),
                          grip(board, notes[static_cast<std::size_t>(bar)]), Seconds(1.8)});
    }
    take.messages = simulate::perform(script, map, board);
    take.end = Seconds(8);
    return take;
}

const std::vector<Instrument>& instruments() {
    static const std::vector<Instrument> all = {
        {"E2 A2 D3 G3 B3 E4", 0},    {"D2 A2 D3 G3 B3 E4", 0},        {"B1 E2 A2 D3 F#3 B3", 3},
        {"B1 E2 A2 D3 G3 B3 E4", 0}, {"F#1 B1 E2 A2 D3 G3 B3 E4", 0}, {"D3 G3 B3 E4", 0},
        {"E2 A2 D3 G3 C4 F4", 2}};
    return all;
}

}  // namespace

TEST_CASE("a wrong tone is named with string and fret as they are on the guitar that was played",
          "[practice]") {
    for (const auto& instrument : instruments()) {
        CAPTURE(instrument.tuning, instrument.capo);
        const auto board = neck(instrument);
        const auto take = played_on(board);
        const auto report = hear_and_judge(form_of(*take.info, "chart"), take, {});
        REQUIRE(report.assessment.changes.size() == 3);
        CHECK(report.heard.fretboard == board);
        const auto& wrong = report.assessment.changes[1].wrong;
        REQUIRE(wrong.size() == 1);
        CHECK(wrong.front().string == 2);
        CHECK(wrong.front().fret == *board.fret(2, harmony::MidiNote(66)));
        CHECK(report.assessment.changes[0].wrong.empty());
    }
}

TEST_CASE("a take says on which guitar it was played, and one that says nothing is a standard one",
          "[practice]") {
    for (const auto& instrument : instruments()) {
        CAPTURE(instrument.tuning);
        const auto take = played_on(neck(instrument));
        const auto map = map_of(*take.info, form_of(*take.info, "chart"));
        const auto back = read_take(to_file(take, map));
        REQUIRE(back.info);
        CHECK(back.info->fretboard == neck(instrument));
    }
    TakeInfo plain;
    plain.asked = roadmap::Asked::of({1, 4}, 1);
    plain.asked.tempo = time::Bpm(120);
    CHECK(to_text(plain).find("guitar") == std::string::npos);
    CHECK(read_info(to_text(plain))->fretboard == guitar::Fretboard::standard());
}

TEST_CASE("who has the take judged can say that it was another guitar", "[practice]") {
    auto take = played_on(neck({"E2 A2 D3 G3 C4 F4", 2}));
    const auto form = form_of(*take.info, "chart");
    take.info->fretboard = guitar::Fretboard::standard();
    ScoreRequest request;
    request.fretboard = neck({"E2 A2 D3 G3 C4 F4", 2});
    const auto report = hear_and_judge(form, take, request);
    CHECK(report.heard.fretboard == *request.fretboard);
    REQUIRE(report.assessment.changes.size() == 3);
    REQUIRE(report.assessment.changes[1].wrong.size() == 1);
    CHECK(report.assessment.changes[1].wrong.front().fret ==
          *request.fretboard->fret(2, harmony::MidiNote(66)));
}
