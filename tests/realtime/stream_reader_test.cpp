#include "realtime/forbidden.hpp"
#include "support/catch.hpp"

#include <compline/midi/stream_reader.hpp>
#include <compline/simulate/chance.hpp>

using namespace compline;
using tests::RealtimeGuard;
using tests::take_forbidden;

TEST_CASE("reading MIDI bytes waits for nothing, whatever they are") {
    simulate::Chance chance(1);
    midi::StreamReader reader;
    int messages = 0;
    (void)take_forbidden();
    {
        const RealtimeGuard guard;
        for (int i = 0; i < 10000; ++i) {
            if (reader.push(static_cast<std::uint8_t>(chance.below(256)))) ++messages;
        }
    }
    const auto calls = take_forbidden();
    INFO(calls.text());
    CHECK(calls.total() == 0);
    CHECK(messages > 0);
    CHECK(reader.unreadable().broken_messages > 0);
}
