// An evening without devices: commands at every awkward place, and what is decided then.

#include "practice/night.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/practice/evening.hpp>
#include <compline/simulate/played.hpp>

#include <algorithm>
#include <optional>
#include <random>
#include <string>
#include <utility>
#include <vector>

using namespace compline;
using practice::Command;
using practice::Evening;
using practice::Orders;
using practice::Refusal;
using roadmap::LaysOut;
using roadmap::NewTempo;
using roadmap::NewWay;
using roadmap::Paused;
using roadmap::Stopped;
using roadmap::Waited;
using tests::Night;
using time::Seconds;

namespace {

/// Twelve bars in rows of four, a bar every two seconds, until stopped or some times through, after
/// one bar of count-in.
roadmap::RoadMap twelve_bars(std::optional<int> times = std::nullopt) {
    const auto form = tests::make_form(
        time::Meter(4), time::Bpm(120),
        {"F7", "Bb7", "F7", "F7", "Bb7", "Bb7", "F7", "D7", "Gm7", "C7", "F7", "C7"});
    auto asked = roadmap::Asked::of(form.whole(), times);
    asked.count_in_bars = 1;
    return {form, asked};
}

template <typename What>
What the_decision(const Orders& orders, std::int64_t from_bar) {
    REQUIRE(orders.decided.size() == 1);
    CHECK(orders.decided[0].decision.from_bar == from_bar);
    CHECK(orders.follow_from == from_bar);
    REQUIRE(std::holds_alternative<What>(orders.decided[0].decision.what));
    return std::get<What>(orders.decided[0].decision.what);
}

}  // namespace

TEST_CASE("who asks for nothing decides nothing") {
    Night night(twelve_bars());
    for (double now = -2; now < 60; now += 0.37) {
        const auto orders = night.at(Seconds(now));
        CHECK_FALSE(orders.finished);
        CHECK_FALSE(orders.follow_from);
        CHECK(orders.decided.empty());
    }
    CHECK(night.state().place.bar == 6);
    CHECK(night.state().times_over == 2);
}

TEST_CASE("faster is four per cent, in whole beats a minute, from the next bar on") {
    Night night(twelve_bars());
    const auto orders = night.at(3, 2, {Command::faster});
    CHECK(the_decision<NewTempo>(orders, 4).tempo == time::Bpm(125));
    CHECK(night.state().tempo == time::Bpm(125));
    CHECK(night.map().bar(3).tempo == time::Bpm(120));
    CHECK(night.map().bar(4).tempo == time::Bpm(125));
}

TEST_CASE("a change counts from the first bar line that is a quarter of a second ahead") {
    Night early(twelve_bars());
    (void)the_decision<NewTempo>(early.at(Seconds(5.74), {Command::faster}), 4);
    Night late(twelve_bars());
    (void)the_decision<NewTempo>(late.at(Seconds(5.76), {Command::faster}), 5);
}

TEST_CASE("twice slower within a bar is twice as much slower, from the same bar on") {
    Night night(twelve_bars());
    (void)night.at(3, 2, {Command::slower});
    const auto orders = night.at(3, 3, {Command::slower});
    CHECK(the_decision<NewTempo>(orders, 4).tempo == time::Bpm(110));
    CHECK(night.map().bar(4).tempo == time::Bpm(110));
    const auto both = night.at(3, 3.5, {Command::faster, Command::faster});
    CHECK(both.decided.size() == 2);
    CHECK(both.follow_from == 4);
    CHECK(night.state().tempo == time::Bpm(119));
}

TEST_CASE("no slower than charts may be, nor faster") {
    Night night(twelve_bars());
    for (int i = 0; i < 60; ++i) (void)night.at(1, 1, {Command::slower});
    CHECK(night.state().refused == Refusal::slowest);
    CHECK(night.state().tempo >= time::Bpm(30));
    (void)night.at(1, 1, {Command::faster});
    CHECK_FALSE(night.state().refused);
    for (int i = 0; i < 100; ++i) (void)night.at(1, 1, {Command::faster});
    CHECK(night.state().refused == Refusal::fastest);
    CHECK(night.state().tempo <= time::Bpm(400));
}

TEST_CASE("the count-in goes on as it began: what is changed in it counts from bar 2 on") {
    Night night(twelve_bars());
    CHECK(the_decision<NewTempo>(night.at(Seconds(-1), {Command::faster}), 2).tempo ==
          time::Bpm(125));
    Night late(twelve_bars());
    CHECK(the_decision<Paused>(late.at(Seconds(-0.2), {Command::pause}), 2) == Paused{});
}

TEST_CASE("in the last bar nothing is changed any more") {
    Night night(twelve_bars(1));
    for (const auto command :
         {Command::faster, Command::drums_off, Command::pause, Command::loop_here}) {
        const auto orders = night.at(12, 2, {command});
        CHECK(orders.decided.empty());
        CHECK(night.state().refused == Refusal::ending);
    }
}

TEST_CASE("drums and bass lay out from the next bar on, each by itself, and come back") {
    Night night(twelve_bars());
    const auto out = the_decision<LaysOut>(night.at(2, 1, {Command::drums_off}), 3);
    CHECK(out.out);
    CHECK(out.who == roadmap::WhoPlays{true, false, false, false});
    CHECK_FALSE(night.state().drums);
    CHECK(night.state().bass);
    CHECK(night.map().bar(2).plays().drums);
    CHECK_FALSE(night.map().bar(3).plays().drums);
    CHECK(night.map().bar(3).plays().bass);
    CHECK(night.at(3, 1, {Command::drums_off}).decided.empty());
    const auto back = the_decision<LaysOut>(night.at(4, 1, {Command::drums_on}), 5);
    CHECK_FALSE(back.out);
    CHECK(night.map().bar(5).plays().drums);
}

TEST_CASE("who was not asked to play cannot be sent out") {
    auto asked = twelve_bars().asked();
    asked.manner.bass = chart::Bass::off;
    Night night({twelve_bars().form(), asked});
    CHECK(night.at(2, 1, {Command::bass_off}).decided.empty());
    CHECK(night.state().refused == Refusal::no_bass);
}

TEST_CASE("a loop is the row that is being played, from the next bar on, over and over") {
    Night night(twelve_bars());
    const auto orders = night.at(6, 3, {Command::loop_here});
    CHECK(the_decision<NewWay>(orders, 7).way == chart::Way::of({5, 8}, std::nullopt));
    CHECK(night.state().loop == chart::Passage{5, 8});
    CHECK(night.bars(5, 8) == "5 6 5 6 7 8 5 6");
}

TEST_CASE("in a row's first bar the loop is the row just played") {
    Night night(twelve_bars());
    (void)night.at(9, 1, {Command::loop_here});
    CHECK(night.state().loop == chart::Passage{5, 8});
    CHECK(night.bars(8, 5) == "8 9 5 6 7");
    Night first(twelve_bars());
    (void)first.at(1, 1, {Command::loop_here});
    CHECK(first.state().loop == chart::Passage{1, 4});
}

TEST_CASE("out of a loop the tune goes on with the bar that follows, without a jump") {
    Night night(twelve_bars());
    (void)night.at(6, 3, {Command::loop_here});
    (void)night.at(8, 2, {Command::leave_loop});  // its bar 6
    CHECK(night.bars(5, 10) == "5 6 5 6 7 8 9 10 11 12");
    CHECK_FALSE(night.state().loop);
    CHECK(night.at(9, 1, {Command::leave_loop}).decided.empty());
    CHECK(night.state().refused == Refusal::not_looping);
}

TEST_CASE("out of a loop in its last bar the tune goes on behind it") {
    Night night(twelve_bars(2));
    (void)night.at(6, 3, {Command::loop_here});
    (void)night.at(10, 2, {Command::leave_loop});  // its bar 8
    CHECK(night.bars(9, 6) == "7 8 9 10 11 12");
    CHECK(night.bars(15, 13) == "1 2 3 4 5 6 7 8 9 10 11 12 -");
}

TEST_CASE("a loop out of a loop leads back to where the tune was left") {
    Night night(twelve_bars(1));
    (void)night.at(2, 1, {Command::loop_here});
    (void)night.at(5, 1, {Command::loop_here});
    (void)night.at(7, 1, {Command::leave_loop});
    CHECK(night.map().bars().has_value());
}

TEST_CASE("out of a loop in a row that was rejoined in its midst no bar is jumped over") {
    Night night(twelve_bars());
    (void)night.at(2, 2, {Command::loop_here});
    (void)night.at(4, 2, {Command::leave_loop});
    (void)night.at(5, 2, {Command::loop_here});
    (void)night.at(6, 2, {Command::leave_loop});
    CHECK(night.bars(1, 10) == "1 2 1 2 3 1 2 3 4 5");
}

TEST_CASE("who leaves a loop and loops again at once has as much of the tune left as before") {
    Night night(twelve_bars(2));
    (void)night.at(2, 2, {Command::loop_here});
    (void)night.at(4, 2, {Command::leave_loop, Command::loop_here});
    (void)night.at(6, 2, {Command::leave_loop});
    CHECK(night.bars(1, 8) == "1 2 1 2 1 2 3 4");
    CHECK(night.map().bars() == 6 + 10 + 12);
}

TEST_CASE("who leaves a loop and pauses at once goes on with that row, and all of the tune") {
    Night night(twelve_bars(2));
    (void)night.at(2, 2, {Command::loop_here});
    (void)night.at(4, 2, {Command::leave_loop, Command::pause});
    (void)night.at(7, 2, {Command::go_on});
    CHECK(night.bars(6, 6) == "1 2 3 4 5 6");
    CHECK(night.map().bars() == 5 + 12 + 12);
}

TEST_CASE("a pause begins with the next bar, and nothing comes after it") {
    Night night(twelve_bars());
    (void)the_decision<Paused>(night.at(6, 2, {Command::pause}), 7);
    CHECK(night.state().paused);
    CHECK(night.bars(6, 2) == "6 -");
    CHECK(night.at(6, 3, {Command::pause}).decided.empty());
    (void)night.at(Seconds(300));
    CHECK_FALSE(night.state().over);
}

TEST_CASE("it goes on after whole beats and a bar to count in, from the beginning of the row") {
    Night night(twelve_bars());
    (void)night.at(6, 2, {Command::pause});  // from 12 s on
    const auto orders = night.at(Seconds(20.1), {Command::go_on});
    const auto waited = the_decision<Waited>(orders, 7);
    CHECK(waited.beats == 17 + 4);  // to 20.5 s, and four
    CHECK(waited.way.goes_on);
    CHECK(night.bars(6, 7) == "6 0 5 6 7 8 9");
    CHECK(night.map().tempi().time_of(night.map().bar(8).start).count() == Approx(22.5));
    CHECK_FALSE(night.state().paused);
}

TEST_CASE("who goes on before the pause has come waits for the count-in alone") {
    Night night(twelve_bars());
    (void)night.at(6, 2, {Command::pause});
    const auto waited = the_decision<Waited>(night.at(6, 2.5, {Command::go_on}), 7);
    CHECK(waited.beats == 1 + 4);
}

TEST_CASE("what is changed in a pause counts from where it goes on, the count-in included") {
    Night night(twelve_bars());
    (void)night.at(6, 2, {Command::pause});
    (void)night.at(Seconds(14), {Command::slower, Command::drums_off});
    (void)night.at(Seconds(20), {Command::go_on});
    CHECK(night.map().bar(7).waits);
    CHECK(night.map().bar(7).tempo == time::Bpm(115));
    CHECK(night.map().bar(8).tempo == time::Bpm(115));
    CHECK_FALSE(night.map().bar(8).plays().drums);
}

TEST_CASE("starting over is another take, as it was asked for in the beginning") {
    Night night(twelve_bars());
    (void)night.at(2, 1, {Command::faster, Command::drums_off});
    (void)night.at(4, 1, {Command::loop_here});
    const auto orders = night.at(6, 1, {Command::start_over});
    CHECK(orders.finished);
    CHECK(orders.decided.empty());
    CHECK(night.state().take == 2);
    CHECK(night.state().tempo == time::Bpm(120));
    CHECK(night.state().drums);
    CHECK_FALSE(night.state().loop);
    CHECK(night.state().now == Seconds(-2));
    CHECK(night.map().decided().empty());
    CHECK(night.evening().opening().decided.empty());
}

TEST_CASE("who asks twice at once to start over finishes the take that was played, once") {
    Night night(twelve_bars());
    (void)night.at(3, 1, {Command::faster});
    const auto orders = night.at(6, 1, {Command::start_over, Command::from_the_top});
    REQUIRE(orders.finished);
    CHECK(orders.finished->end == Seconds(10));
    CHECK(orders.finished->info->decided.size() == 1);
    CHECK(night.state().take == 2);
    CHECK(night.evening().take().info->decided.empty());
}

TEST_CASE("from the top is another take in the tempo of now, with the players of now") {
    Night night(twelve_bars());
    (void)night.at(2, 1, {Command::faster, Command::drums_off});
    const auto orders = night.at(6, 1, {Command::from_the_top});
    CHECK(orders.finished);
    REQUIRE(orders.decided.size() == 1);
    CHECK(night.state().tempo == time::Bpm(125));
    CHECK_FALSE(night.state().drums);
    CHECK(night.map().tempo() == time::Bpm(125));
    CHECK_FALSE(night.map().bar(1).plays().drums);
    CHECK(night.bars(1, 3) == "1 2 3");
    CHECK(night.evening().opening().asked.tempo == time::Bpm(125));
}

TEST_CASE("who stops in the second time through has played two") {
    Night night(twelve_bars());
    const auto orders = night.at(14, 2, {Command::stop});
    CHECK(orders.stop);
    CHECK(night.state().over);
    REQUIRE(orders.decided.size() == 1);
    CHECK(orders.decided[0].decision == roadmap::Decision{25, Stopped{}});
    CHECK(night.evening().take().info->ended);
}

TEST_CASE("a tune that ends is over when its last chord has rung") {
    auto asked = twelve_bars(1).asked();
    asked.way.held_ending = true;
    Night night({twelve_bars().form(), asked});
    (void)night.at(Seconds(24.2));
    CHECK_FALSE(night.state().over);
    (void)night.at(Seconds(28.6));
    CHECK(night.state().over);
    CHECK(night.state().times_over == 1);
}

TEST_CASE("the take of an evening says all that was decided, when it was") {
    Night night(twelve_bars());
    (void)night.at(Seconds(3.25), {Command::faster});
    (void)night.at(Seconds(6.5), {Command::pause});
    (void)night.at(Seconds(30), {Command::go_on});
    (void)night.at(Seconds(50), {Command::stop});
    const auto take = night.evening().take();
    REQUIRE(take.info->decided.size() == 4);
    CHECK(take.info->decided[0].at == Seconds(3.25));
    CHECK(take.info->decided[2].at == Seconds(30));
    CHECK(take.end == Seconds(50));
    CHECK(practice::map_of(*take.info, twelve_bars().form()).bars() == night.map().bars());
}

TEST_CASE("commands in a silence that was asked for change what comes after it") {
    auto asked = twelve_bars().asked();
    asked.silence = roadmap::Silence{2, 2};
    Night night({twelve_bars().form(), asked});
    (void)night.at(3, 1, {Command::bass_off, Command::faster});
    CHECK(night.map().bar(4).is_silent());
    CHECK(night.map().bar(5).plays().drums);
    CHECK_FALSE(night.map().bar(5).plays().bass);
    CHECK(night.map().bar(5).tempo == time::Bpm(125));
}

TEST_CASE("verdicts are said while it plays, each once, and the whole take says the same") {
    const auto form = twelve_bars().form();
    auto asked = roadmap::Asked::of(form.whole(), 4);
    asked.count_in_bars = 1;
    const roadmap::RoadMap map(form, asked, {{20, NewTempo{time::Bpm(104)}}});
    simulate::Habits habits;
    habits.rate(simulate::Deed::late) = 0.15;
    habits.rate(simulate::Deed::wrong_third) = 0.1;
    const auto script = simulate::play(map, habits, 5).script;
    const auto messages = simulate::perform(script, map, guitar::Fretboard::standard());
    practice::TakeInfo opening;
    opening.chart_text = "none";
    Evening evening(map, opening, {}, practice::JudgedMeanwhile::every_change);
    std::size_t next = 0;
    std::size_t said = 0;
    for (Seconds now = -map.lead(); !evening.state().over; now += Seconds(0.1)) {
        practice::Played news;
        for (; next < messages.size() && messages[next].at <= now; ++next) {
            news.messages.push_back(messages[next]);
        }
        (void)evening.advance(now, news, {});
        const auto& verdicts = evening.state().verdicts;
        REQUIRE(verdicts.size() >= said);
        said = verdicts.size();
        if (said > 0) CHECK(verdicts.back().at < now);
    }
    CHECK(evening.state().times_over == 4);
    REQUIRE(evening.state().strings.has_value());
    CHECK(evening.state().strings->has_value());
    const auto& verdicts = evening.state().verdicts;
    const auto whole = practice::hear_and_judge(form, evening.take(), {}).assessment.changes;
    CHECK(verdicts.size() + 2 >= whole.size());
    REQUIRE(verdicts.size() <= whole.size());
    std::size_t others = 0;
    for (std::size_t i = 0; i < verdicts.size(); ++i) {
        CHECK(verdicts[i].at == whole[i].at);
        CHECK(verdicts[i].to == whole[i].to);
        others += verdicts[i].verdict != whole[i].verdict || verdicts[i].tones != whole[i].tones;
    }
    // What the whole take tells of its player may turn one that lies on the edge.
    CHECK(others * 20 <= verdicts.size());
}

TEST_CASE("how far an instrument bends is said once, and known for the whole evening") {
    Evening evening(twelve_bars(5), {}, {}, practice::JudgedMeanwhile::times_through);
    practice::Played switched_on;
    for (int string = 1; string <= 6; ++string) {
        for (const auto& [controller, value] :
             {std::pair(101, 0), std::pair(100, 0), std::pair(6, 12)}) {
            switched_on.messages.push_back(
                {Seconds(-1), midi::control_change(string, controller, value)});
        }
    }
    (void)evening.advance(Seconds(-1), switched_on, {});
    // In the fourth time through, far from where that was said: a slide by two frets of twelve.
    const Seconds at(3 * 24.0 + 2);
    practice::Played slide;
    for (int string = 1; string <= 6; ++string) {
        slide.messages.push_back({at, midi::note_on(string, 70 - string * 4, 90)});
    }
    slide.messages.push_back({at + Seconds(0.5), midi::pitch_bend(1, 8191 / 6)});
    slide.messages.push_back({at + Seconds(1.5), midi::note_off(1, 66)});
    (void)evening.advance(at + Seconds(2), slide, {});
    (void)evening.advance(Seconds(4 * 24.0 + 1), {}, {});
    CHECK(evening.state().times_over == 4);
    REQUIRE(evening.state().lately.has_value());
    const auto& notes = evening.state().lately->heard.notes;
    CHECK(std::any_of(notes.begin(), notes.end(),
                      [](const listen::Note& note) { return note.note.number() == 68; }));
    CHECK(evening.state().lately->heard.begin > Seconds(0));
}

TEST_CASE("who is not listened to is not judged") {
    Evening evening(twelve_bars(), {}, {}, practice::JudgedMeanwhile::nothing);
    practice::Played news;
    for (int note = 0; note < 20; ++note) {
        news.messages.push_back({Seconds(0.1 * note), midi::note_on(1, 60, 80)});
    }
    (void)evening.advance(Seconds(50), news, {});
    CHECK_FALSE(evening.state().lately);
    CHECK_FALSE(evening.state().strings);
}

TEST_CASE("whatever is asked, whenever, only what can be is decided, and the take says all of it") {
    const std::vector<Command> all{Command::pause,     Command::go_on,      Command::slower,
                                   Command::faster,    Command::loop_here,  Command::leave_loop,
                                   Command::drums_off, Command::drums_on,   Command::bass_off,
                                   Command::bass_on,   Command::start_over, Command::from_the_top,
                                   Command::go_on,     Command::loop_here,  Command::leave_loop};
    for (unsigned seed = 1; seed <= 300; ++seed) {
        INFO("seed " << seed);
        std::mt19937 chance(seed);
        const auto one_of = [&](int least, int most) {
            return std::uniform_int_distribution<int>(least, most)(chance);
        };
        Night night(twelve_bars(seed % 3 == 0 ? std::nullopt : std::optional<int>(4)));
        auto now = -night.map().lead();
        for (int i = 0; i < 60 && !night.state().over; ++i) {
            const auto before = night.map();
            const bool was_paused = night.state().paused;
            std::vector<Command> commands;
            for (int n = one_of(0, 3); n > 0; --n) {
                commands.push_back(all[static_cast<std::size_t>(one_of(0, 14))]);
            }
            now += Seconds(one_of(1, 3000) / 1000.0);
            const auto orders = night.at(now, commands);
            if (orders.finished) {
                now = night.state().now;
                continue;
            }
            if (!orders.follow_from) continue;
            // What is changed lies far enough ahead, but for a pause, and nothing before it is.
            const auto from = before.tempi().time_of(before.bar(*orders.follow_from - 1).end());
            CHECK((was_paused || from >= now + Evening::notice - Seconds(1e-9)));
            for (auto bar = *orders.follow_from - 1; bar >= 1; --bar) {
                REQUIRE(night.map().bar(bar).in_form() == before.bar(bar).in_form());
                REQUIRE(night.map().bar(bar).start == before.bar(bar).start);
                REQUIRE(night.map().bar(bar).tempo == before.bar(bar).tempo);
            }
        }
        const auto info = *night.evening().take().info;
        const auto again = practice::map_of(info, night.map().form());
        CHECK(again.decided() == night.map().decided());
        CHECK(again.bars() == night.map().bars());
    }
}
