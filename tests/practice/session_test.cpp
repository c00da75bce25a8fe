#include "support/catch.hpp"
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
    Session session(rate, Seconds(0.01));
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
    Session session(rate, no_latency);
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
    Session session(rate, no_latency);
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
    Session session(rate, no_latency);
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
    Session session(rate, no_latency);
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
    Session session(rate, no_latency);
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

TEST_CASE("before any sound the tune has not begun, and nothing is timed") {
    Session session(rate, no_latency);
    session.start(Frames(4800));
    CHECK(session.now(time::Instant(5)) < Seconds(0));
    session.add(at_moment(time::Instant(5)));
    CHECK(session.advance().messages.empty());
}
