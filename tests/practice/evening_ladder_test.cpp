// An evening on a ladder, without devices: what is decided, when, and what its take says of it.

#include "practice/climber.hpp"
#include "roadmap/scenes.hpp"
#include "support/catch.hpp"
#include "support/temporary_folder.hpp"

#include <compline/band/band.hpp>
#include <compline/files/file_io.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take_file.hpp>
#include <compline/report/report.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace compline;
using practice::Command;
using practice::Refusal;
using practice::Remark;
using tests::Climb;
using tests::on_a_ladder;
using tests::Playing;
using time::Bpm;
using time::Seconds;
using Steps = std::vector<std::string>;

namespace {

Playing always_well(int) { return Playing::well; }

/// Well, but these times through.
tests::Manner but(std::vector<int> times, Playing playing) {
    return [=](int time_through) {
        const bool one = std::find(times.begin(), times.end(), time_through) != times.end();
        return one ? playing : Playing::well;
    };
}

/// "5 6 7 8 0": the bars of the form as they were played, a wait being 0.
std::string bars(const roadmap::RoadMap& map) {
    std::string text;
    for (std::int64_t number = 1; number <= map.bars().value(); ++number) {
        text += (text.empty() ? "" : " ") + std::to_string(map.bar(number).in_form());
    }
    return text;
}

practice::Take through_a_file(const practice::Take& take, const roadmap::RoadMap& map) {
    const auto bytes = midi::write_smf(practice::to_file(take, map));
    return practice::read_take(midi::read_smf(bytes).file);
}

}  // namespace

TEST_CASE("who plays well climbs to the top, plays the section once, and is done") {
    Climb climb(on_a_ladder(96, 104), always_well);
    climb.go_on();
    CHECK(climb.steps() == Steps{"96 clean, again", "96 clean, faster", "100 clean, again",
                                 "100 clean, faster", "104 clean, again", "104 clean, section"});
    CHECK(bars(climb.state().map) ==
          "5 6 7 8 5 6 7 8 0 5 6 7 8 5 6 7 8 0 5 6 7 8 5 6 7 8 0 5 6 7 8 9 10");
    CHECK(climb.state().map.bar(8).tempo == Bpm(96));
    CHECK(climb.state().map.bar(9).tempo == Bpm(100));
    CHECK(climb.state().map.bar(33).tempo == Bpm(104));
    CHECK(climb.state().times_over == 7);
    CHECK(climb.state().ladder.front().due == 4);
    CHECK(climb.state().ladder.front().right == 4);
    CHECK(climb.state().ladder.front().above == Bpm(100));
    CHECK_FALSE(climb.state().ladder.back().above);
}

TEST_CASE("what was not clean comes again, and twice not clean is slower") {
    Climb climb(on_a_ladder(96, 132), but({5, 6}, Playing::badly));
    climb.go_on_to_bar(9 * 3 + 1);
    REQUIRE(climb.steps().size() >= 6);
    CHECK(climb.steps()[4] == "104 not clean, again");
    CHECK(climb.steps()[5] == "104 not clean, slower");
    CHECK(climb.state().ladder[5].next_tempo == Bpm(96));
    CHECK(climb.state().tempo == Bpm(96));
}

TEST_CASE("who falls three times from one tempo has done enough for today") {
    Climb climb(on_a_ladder(96, 132), [](int) { return Playing::badly; });
    climb.go_on();
    REQUIRE(climb.steps().size() == 6);
    CHECK(climb.steps().back() == "96 not clean, enough");
    CHECK(bars(climb.state().map) == "5 6 7 8 5 6 7 8 5 6 7 8 5 6 7 8 5 6 7 8 5 6 7 8");
    CHECK(climb.evening().take().info->ended);
}

TEST_CASE("who slips on each chord, each time through, is judged as long as he likes") {
    Climb climb(on_a_ladder(96, 132), [](int) { return Playing::slipping; });
    climb.go_on_until(Seconds(58));
    REQUIRE(climb.state().lately);
    // Of the last times through, which are all that is judged then, the first change too.
    CHECK(climb.state().lately->assessment.changes.front().tones == assess::Tones::wrong);
    CHECK(climb.state().lately->assessment.changes.front().time_through > 1);
}

TEST_CASE("who only listens moves nothing") {
    Climb climb(on_a_ladder(96, 132), [](int) { return Playing::silent; });
    climb.go_on_until(Seconds(62));
    CHECK(climb.steps() == Steps(6, "96 too little, again"));
    CHECK(climb.state().tempo == Bpm(96));
}

TEST_CASE("what a ladder decides is known a beat before the bar line, half a second at least") {
    for (const int tempo : {60, 96, 220, 390}) {
        INFO(tempo);
        Climb climb(on_a_ladder(tempo, 400), always_well);
        for (int step = 0; step < 4; ++step) {
            const auto steps = climb.state().ladder.size();
            const auto before = climb.state().map;
            practice::Orders orders;
            while (climb.state().ladder.size() == steps) {
                orders = climb.turn();
                REQUIRE(climb.now() < Seconds(120));
            }
            const auto& map = climb.state().map;
            const auto from_bar = orders.decided.front().decision.from_bar;
            const auto line = before.tempi().time_of(before.bar(from_bar - 1).end());
            const auto beat = before.bar(from_bar - 1).tempo.beat();
            CHECK(line - climb.state().now <= std::max(beat, Seconds(0.5)));
            CHECK(line - climb.state().now > std::max(beat, Seconds(0.5)) - Seconds(0.021));
            for (std::int64_t bar = 1; bar < from_bar; ++bar) {
                REQUIRE(map.bar(bar).start == before.bar(bar).start);
                REQUIRE(map.bar(bar).tempo == before.bar(bar).tempo);
            }
        }
    }
}

TEST_CASE("the time through that was played last is over while the sticks count in") {
    Climb climb(on_a_ladder(96, 132), always_well);
    climb.go_on_to_bar(9, 3);
    CHECK(climb.state().place.bar == 0);
    CHECK(climb.state().times_over == 2);
    REQUIRE(climb.state().lately);
}

TEST_CASE("faster and slower go to the next rung, and what was counted there begins anew") {
    Climb climb(on_a_ladder(96, 132), always_well);
    climb.go_on_to_bar(6);
    (void)climb.turn({Command::faster});
    CHECK(climb.state().tempo == Bpm(100));
    climb.go_on_to_bar(18, 2);
    CHECK(climb.steps() == Steps{"96 clean, again", "100 not whole, again", "100 clean, again",
                                 "100 clean, faster"});
    (void)climb.turn({Command::slower, Command::slower});
    CHECK(climb.state().tempo == Bpm(96));
}

TEST_CASE("beyond its top a ladder goes on as far as it is moved by hand") {
    Climb climb(on_a_ladder(96, 100), always_well);
    climb.go_on_to_bar(2);
    (void)climb.turn({Command::faster, Command::faster});
    CHECK(climb.state().tempo == Bpm(104));
    climb.go_on();
    CHECK(climb.steps() == Steps{"104 not whole, again", "104 clean, again", "104 clean, section"});
}

TEST_CASE("sticks that count in are not changed: what is asked for then comes with bar 2") {
    Climb climb(on_a_ladder(96, 132), always_well);
    climb.go_on_to_bar(9, 2);
    REQUIRE(climb.state().map.bar(9).waits);
    (void)climb.turn({Command::faster});
    CHECK(climb.state().map.bar(9).tempo == Bpm(100));
    CHECK(climb.state().map.bar(10).tempo == Bpm(100));
    CHECK(climb.state().map.bar(11).tempo == Bpm(104));
}

TEST_CASE("a time through with a pause in it does not count, nor the rest of it behind that") {
    Climb climb(on_a_ladder(96, 132), always_well);
    climb.go_on_to_bar(6);
    (void)climb.turn({Command::pause});
    climb.go_on_until(climb.now() + Seconds(20));
    (void)climb.turn({Command::go_on});
    climb.go_on_until(climb.now() + Seconds(35));
    REQUIRE(climb.steps().size() >= 3);
    CHECK(climb.steps()[0] == "96 clean, again");
    // The row begins with the loop: played whole again, it counts.
    CHECK(climb.steps()[1] == "96 clean, faster");
    CHECK(climb.state().ladder[1].time_through == 3);
}

TEST_CASE("of a loop that is longer than a row the part behind a pause does not count") {
    Climb climb(on_a_ladder(96, 132, {1, 10}), always_well);
    climb.go_on_to_bar(6);
    (void)climb.turn({Command::pause});
    climb.go_on_until(climb.now() + Seconds(10));
    (void)climb.turn({Command::go_on});
    climb.go_on_until(climb.now() + Seconds(45));
    REQUIRE(climb.steps().size() == 2);
    CHECK(climb.steps()[0] == "96 not whole, again");
    CHECK(climb.state().ladder[0].time_through == 2);
    CHECK(climb.steps()[1] == "96 clean, again");
}

TEST_CASE("who leaves the loop goes on into the tune, off the ladder, and is told so") {
    Climb climb(on_a_ladder(96, 132), always_well);
    CHECK(climb.state().loop == chart::Passage{5, 8});
    climb.go_on_to_bar(7);
    (void)climb.turn({Command::leave_loop});
    CHECK(climb.state().remarks == std::vector<Remark>{Remark::off_the_ladder});
    CHECK_FALSE(climb.state().loop);
    climb.go_on_to_bar(20);
    CHECK(climb.state().map.bar(8).in_form() == 8);
    CHECK(climb.state().map.bar(9).in_form() == 9);
    CHECK(climb.state().map.bar(11).in_form() == 1);
    CHECK(climb.steps() == Steps{"96 clean, again"});
    CHECK(climb.state().tempo == Bpm(96));
}

TEST_CASE("another loop is off the ladder too") {
    Climb climb(on_a_ladder(96, 132), always_well);
    climb.go_on_to_bar(3);
    (void)climb.turn({Command::loop_here});
    CHECK(climb.state().remarks == std::vector<Remark>{Remark::off_the_ladder});
    climb.go_on_until(Seconds(60));
    CHECK(climb.steps().empty());
}

TEST_CASE("start over is a ladder from its beginning, from the top one from the tempo of now") {
    Climb climb(on_a_ladder(96, 132), always_well);
    climb.go_on_to_bar(20);
    CHECK(climb.state().tempo == Bpm(104));
    (void)climb.turn({Command::from_the_top});
    CHECK(climb.state().ladder.empty());
    CHECK(climb.state().map.tempo() == Bpm(104));
    CHECK(climb.evening().opening().asked.ladder == roadmap::AskedLadder{Bpm(96), Bpm(132)});
    climb.go_on_to_bar(10);
    CHECK(climb.steps() == Steps{"104 clean, again", "104 clean, faster"});
    CHECK(climb.state().tempo == Bpm(108));
    (void)climb.turn({Command::start_over});
    CHECK(climb.state().tempo == Bpm(96));
    climb.go_on_to_bar(5);
    CHECK(climb.steps() == Steps{"96 clean, again"});
}

TEST_CASE("what cannot be decided in time any more is left out") {
    Climb climb(on_a_ladder(96, 132), always_well);
    climb.go_on_until(Seconds(8));
    practice::Evening held_up(on_a_ladder(96, 132), {}, {}, practice::JudgedMeanwhile::nothing);
    (void)held_up.advance(Seconds(9), {}, {});
    // A tenth of a second before the bar line.
    CHECK(held_up.advance(Seconds(9.9), {}, {}).decided.empty());
    CHECK(held_up.state().ladder.empty());
    CHECK(held_up.advance(Seconds(19.6), {}, {}).decided.size() == 1);
}

TEST_CASE("whatever is asked for on a ladder, whenever, its take says all of it and is judged") {
    const std::vector<Command> all{Command::pause,  Command::go_on,      Command::slower,
                                   Command::faster, Command::loop_here,  Command::leave_loop,
                                   Command::go_on,  Command::drums_off,  Command::drums_on,
                                   Command::faster, Command::start_over, Command::from_the_top};
    std::size_t steps = 0;
    for (unsigned seed = 1; seed <= 40; ++seed) {
        INFO("seed " << seed);
        tests::Chance chance(seed);
        const tests::Manner manner = [seed](int time_through) {
            const auto kind = (static_cast<unsigned>(time_through) * 7 + seed) % 10;
            return kind < 6 ? Playing::well : kind < 9 ? Playing::badly : Playing::silent;
        };
        Climb climb(on_a_ladder(280, 300, {5, 6}), manner, Seconds(0.05));
        climb.go_on_until(Seconds(3));
        for (int n = chance.from_to(0, 5); n > 0 && !climb.state().over; --n) {
            (void)climb.turn({all[static_cast<std::size_t>(chance.below(12))]});
            climb.go_on_until(climb.now() + Seconds(chance.below(60) / 10.0));
        }
        if (climb.state().paused) (void)climb.turn({Command::go_on});
        climb.go_on_until(climb.now() + Seconds(chance.below(60) / 10.0));
        if (!climb.state().over) (void)climb.turn({Command::stop});
        steps += climb.state().ladder.size();
        const auto take = through_a_file(climb.evening().take(), climb.state().map);
        const auto again = practice::map_of(*take.info, tests::two_sections());
        CHECK(again.times_through() == climb.state().map.times_through());
        CHECK(practice::hear_and_judge(tests::two_sections(), take, {}).ladder);
    }
    CHECK(steps > 100);
}

TEST_CASE("a take with a ladder, read from its file, gives the same report and the same music") {
    const tests::Manner manner = but({3, 5, 6, 9}, Playing::badly);
    Climb climb(on_a_ladder(96, 108), manner);
    climb.go_on_until(Seconds(150));
    if (!climb.state().over) (void)climb.turn({Command::stop});
    const auto& map = climb.state().map;
    const auto take = climb.evening().take();
    const auto again = through_a_file(take, map);
    CHECK(again.info->decisions() == take.info->decisions());
    CHECK(practice::map_of(*again.info, tests::two_sections()).bars() == map.bars());
    const auto live = practice::hear_and_judge(tests::two_sections(), take, {});
    const auto scored = practice::hear_and_judge(tests::two_sections(), again, {});
    REQUIRE(live.ladder);
    CHECK(live.ladder->rungs.size() >= 3);
    CHECK(report::to_text(live) == report::to_text(scored));
    CHECK(report::to_text(live).find("The ladder: from 96") != std::string::npos);
    // Its tempo is asked otherwise: what the ladder made of it no longer holds.
    practice::ScoreRequest other;
    other.tempo = Bpm(100);
    CHECK_FALSE(practice::hear_and_judge(tests::two_sections(), again, other).ladder);
}

TEST_CASE(
    "a take that was killed on a ladder, at any byte, is scored and played as far as it goes") {
    const tests::TemporaryFolder folder;
    const auto asked = on_a_ladder(96, 132);
    Climb climb(asked, but({4}, Playing::badly));
    climb.go_on_until(Seconds(70));
    const auto take = climb.evening().take();
    auto opening = *take.info;
    opening.decided.clear();
    opening.ended = false;
    practice::TakeFile file(folder.file("take.mid"), {opening, asked}, files::Access::own);
    auto decided = take.info->decided.begin();
    for (const auto& timed : take.messages) {
        for (; decided != take.info->decided.end() && decided->at <= timed.at; ++decided) {
            file.add(*decided);
        }
        file.add(timed);
    }
    const auto bytes = files::load_bytes(file.path());
    std::size_t most_rungs = 0;
    for (std::size_t size = bytes.size(); size > bytes.size() / 3; size -= 97) {
        INFO("cut at byte " << size);
        const std::vector<std::uint8_t> cut(bytes.begin(),
                                            bytes.begin() + static_cast<std::ptrdiff_t>(size));
        const auto left = practice::read_take(midi::read_smf(cut).file);
        REQUIRE(left.info);
        CHECK_FALSE(left.info->ended);
        const auto report = practice::hear_and_judge(tests::two_sections(), left, {});
        REQUIRE(report.ladder);
        most_rungs = std::max(most_rungs, report.ladder->rungs.size());
        const auto map = practice::as_far_as_played(
            practice::map_of(*left.info, tests::two_sections()), false, left.end);
        CHECK_FALSE(map.goes_on());
        CHECK_FALSE(band::arrange(map, {}).strokes.empty());
    }
    CHECK(most_rungs == 2);
}
