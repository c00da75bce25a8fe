#include "simulate/taken.hpp"
#include "support/catch.hpp"

#include <compline/listen/listener.hpp>

#include <set>

using namespace compline;
using simulate::ChannelLayout;
using tests::Taken;

namespace {

std::vector<midi::TimedMessage> sent(ChannelLayout channels) {
    const Taken taken(tests::roomy(), 132, 1, {}, 1);
    const auto board = guitar::Fretboard::standard();
    return sent_on(channels, perform(taken.tune.script, taken.map, board));
}

std::vector<listen::Note> heard(ChannelLayout channels) {
    return listen::hear(sent(channels), {}, time::Seconds(1e4)).notes;
}

}  // namespace

TEST_CASE("the listener hears the same notes on the same strings, whatever channel has which") {
    const auto once = heard(ChannelLayout::high_string_first);
    REQUIRE(once.size() > 100);
    for (const auto channels : {ChannelLayout::low_string_first, ChannelLayout::from_eleven}) {
        INFO(simulate::name_of(channels));
        const auto again = heard(channels);
        REQUIRE(again.size() == once.size());
        for (std::size_t i = 0; i < once.size(); ++i) {
            CHECK(again[i].on == once[i].on);
            CHECK(again[i].note == once[i].note);
            CHECK(again[i].string == once[i].string);
        }
    }
}

TEST_CASE("on one channel no note is struck while it sounds, and every note ends") {
    std::set<int> sounding;
    for (const auto& timed : sent(ChannelLayout::one_for_all)) {
        CHECK(timed.message.channel() == 1);
        const int note = timed.message.data1;
        if (timed.message.starts_note()) CHECK(sounding.insert(note).second);
        if (timed.message.ends_note()) CHECK(sounding.erase(note) == 1);
    }
    CHECK(sounding.empty());
    CHECK_FALSE(heard(ChannelLayout::one_for_all).front().string.has_value());
}
