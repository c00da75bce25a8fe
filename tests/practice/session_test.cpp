#include "support/catch.hpp"
#include "support/forms.hpp"
#include "time/stamp_stream.hpp"

#include <compline/practice/session.hpp>

#include <cmath>

using namespace compline;
using listen::Arrival;
using practice::Session;
using tests::StampStream;
using time::Frames;
using time::Seconds;

namespace {

constexpr time::SampleRate rate{48000};
constexpr Seconds no_latency{0};
/// Two bars of 4/4 at 120 bpm: four seconds a time through.
roadmap::Asked asked(std::optional<int> times) {
    auto asked = roadmap::Asked::of({1, 2}, times);
    asked.tempo = time::Bpm(120);
    return asked;
}
roadmap::RoadMap road(const roadmap::Asked& asked) {
    return {tests::make_form(time::Meter(4), time::Bpm(132), {"Dm7", "G7"}), asked};
}
roadmap::RoadMap two_bars(std::optional<int> times) { return road(asked(times)); }

Arrival at_frame(std::uint32_t device_frame, int note = 60) {
    Arrival arrival;
    arrival.message = midi::note_on(1, note, 80);
    arrival.timing = Arrival::Timing::at_a_device_frame;
    arrival.device_frame = device_frame;
    return arrival;
}

Arrival at_moment(time::Instant moment, Arrival::Timing timing = Arrival::Timing::at_a_moment) {
    Arrival arrival;
    arrival.message = midi::note_on(1, 60, 80);
    arrival.timing = timing;
    arrival.moment = moment;
    return arrival;
}

void run(Session& session, StampStream& stream, int blocks) {
    for (int i = 0; i < blocks; ++i) session.add(stream.next());
}

}  // namespace

TEST_CASE("a note timed by a device's frame is in the tune to the frame, less the way to the ear") {
    StampStream stream({});
    Session session(rate, Seconds(0.01), two_bars(std::nullopt));
    run(session, stream, 100);
    session.start(Frames(24000));
    session.add(at_frame(10000 + 24000));
    run(session, stream, 1);
    const auto news = session.advance();
    REQUIRE(news.messages.size() == 1);
    CHECK(news.messages[0].at.count() == Approx(-0.01).margin(1e-9));
    CHECK(session.advance().messages.empty());
    CHECK(session.played().messages.size() == 1);
}

TEST_CASE("a note of a cycle whose audio is not made yet waits for it, and those behind it too") {
    StampStream stream({});
    Session session(rate, no_latency, two_bars(std::nullopt));
    session.start(Frames(0));
    session.add(at_frame(10000 + 5, 60));
    session.add(at_frame(10000 + 6, 61));
    CHECK(session.advance().messages.empty());
    run(session, stream, 1);
    const auto news = session.advance();
    REQUIRE(news.messages.size() == 2);
    CHECK(news.messages[1].at.count() == Approx(6.0 / 48000).margin(1e-9));
    CHECK(news.messages[1].message.data1 == 61);
}

TEST_CASE("a note that comes at a moment, or in a cycle, is timed by the clock map") {
    StampStream stream({});
    Session session(rate, no_latency, two_bars(std::nullopt));
    session.start(Frames(48000));
    run(session, stream, 400);  // 2.13 s
    const auto moment = stream.due() + Seconds(-0.003);
    session.add(at_moment(moment));
    session.add(at_moment(stream.due(), Arrival::Timing::in_a_cycle));
    const auto news = session.advance();
    REQUIRE(news.messages.size() == 2);
    CHECK(news.messages[0].at.count() == Approx(stream.truth(moment).count() - 1).margin(1e-6));
    CHECK(news.messages[1].at >= news.messages[0].at);
}

TEST_CASE("times in a take never go back, whatever the clock does") {
    StampStream stream({});
    Session session(rate, no_latency, two_bars(std::nullopt));
    session.start(Frames(0));
    run(session, stream, 400);
    session.add(at_moment(stream.due()));
    session.add(at_moment(stream.due() + Seconds(-0.5)));
    const auto news = session.advance();
    REQUIRE(news.messages.size() == 2);
    CHECK(news.messages[1].at == news.messages[0].at);
}

TEST_CASE("lost sound is an interruption of the take, from its own beginning on") {
    StampStream stream({});
    Session session(rate, no_latency, two_bars(std::nullopt));
    run(session, stream, 200);
    stream.lose(3, true);
    run(session, stream, 200);
    session.start(Frames(400 * 256));
    CHECK(session.played().interruptions.empty());
    run(session, stream, 200);
    stream.lose(3, true);
    run(session, stream, 200);
    const auto news = session.advance();
    REQUIRE(news.interruptions.size() == 1);
    CHECK(news.interruptions[0].count() == Approx(200 * 256 / 48000.0).margin(0.06));
    CHECK(session.clock().interruptions() == 2);
}

TEST_CASE("starting over forgets what was played, but not how far the strings bend") {
    StampStream stream({});
    Session session(rate, no_latency, two_bars(std::nullopt));
    session.start(Frames(0));
    run(session, stream, 100);
    for (const auto& message : {midi::control_change(1, 101, 0), midi::control_change(1, 100, 0),
                                midi::control_change(1, 6, 12), midi::control_change(1, 7, 99),
                                midi::note_on(1, 60, 80)}) {
        auto arrival = at_frame(10100);
        arrival.message = message;
        session.add(arrival);
    }
    session.start(Frames(24000));
    const auto& kept = session.played().messages;
    REQUIRE(kept.size() == 3);
    CHECK(kept[2].message == midi::control_change(1, 6, 12));
    CHECK(kept[2].at < Seconds(0));
    session.add(at_frame(10000 + 24000));
    run(session, stream, 1);
    CHECK(session.advance().messages.size() == 1);
    CHECK(session.played().messages.size() == 4);
}

TEST_CASE("times through begin on their first beat and are over when the last chord was heard") {
    const Session some(rate, no_latency, two_bars(2));
    const Session endless(rate, no_latency, two_bars(std::nullopt));
    CHECK(some.times_begun(Seconds(-0.1)) == 0);
    CHECK(some.times_begun(Seconds(0)) == 1);
    CHECK(some.times_begun(Seconds(4.1)) == 2);
    CHECK(some.times_begun(Seconds(100)) == 2);
    CHECK(endless.times_begun(Seconds(100)) == 26);
    CHECK(some.times_over(Seconds(4.4)) == 0);
    CHECK(some.times_over(Seconds(4.6)) == 1);
    CHECK(some.times_over(Seconds(100)) == 2);
    CHECK_FALSE(some.finished(Seconds(8.4)));
    CHECK(some.finished(Seconds(8.6)));
    CHECK_FALSE(endless.finished(Seconds(1e6)));
    auto ends = asked(2);
    ends.way.held_ending = true;
    const Session rings(rate, no_latency, road(ends));  // two bars of two seconds more
    CHECK_FALSE(rings.finished(Seconds(12.4)));
    CHECK(rings.finished(Seconds(12.6)));
    ends.tempo = time::Bpm(400);
    const Session fast(rate, no_latency, road(ends));  // two bars would cut off the crash
    CHECK_FALSE(fast.finished(Seconds(2.4 + 2.9)));
    CHECK(fast.finished(Seconds(2.4 + 3.1)));
}

TEST_CASE("times through begin and end by the tempo that each of them has") {
    const auto map = two_bars(3).with({3, roadmap::NewTempo{time::Bpm(60)}});
    const Session session(rate, no_latency, map);  // four seconds, then eight each
    CHECK(session.times_begun(Seconds(3.9)) == 1);
    CHECK(session.times_begun(Seconds(4.1)) == 2);
    CHECK(session.times_begun(Seconds(11.9)) == 2);
    CHECK(session.times_begun(Seconds(12.1)) == 3);
    CHECK_FALSE(session.finished(Seconds(20.4)));
    CHECK(session.finished(Seconds(20.6)));
}

TEST_CASE("before any sound the tune has not begun, and nothing is timed") {
    Session session(rate, no_latency, two_bars(2));
    session.start(Frames(4800));
    CHECK(session.now(time::Instant(5)) < Seconds(0));
    session.add(at_moment(time::Instant(5)));
    CHECK(session.advance().messages.empty());
}
