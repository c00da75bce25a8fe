#include "support/catch.hpp"

#include <compline/midi/message.hpp>

#include <type_traits>

using namespace compline::midi;

namespace {

// Fits a real-time queue, which copies its items byte by byte.
static_assert(std::is_trivially_copyable_v<Message>);

Message wire(int status, int data1, int data2) {
    return {static_cast<std::uint8_t>(status), static_cast<std::uint8_t>(data1),
            static_cast<std::uint8_t>(data2)};
}

}  // namespace

TEST_CASE("messages have the bytes of MIDI 1.0, channels counted from 1") {
    // MIDI 1.0 Detailed Specification (MIDI Association), table of channel voice messages; middle
    // C is note 60.
    CHECK(note_on(1, 60, 100) == wire(0x90, 60, 100));
    CHECK(note_off(16, 60) == wire(0x8F, 60, 0));
    CHECK(note_off(2, 61, 64) == wire(0x81, 61, 64));
    CHECK(control_change(10, 7, 127) == wire(0xB9, 7, 127));
    CHECK(program_change(2, 32) == wire(0xC1, 32, 0));
    // "00 40" is the wheel at rest: least significant seven bits first.
    CHECK(pitch_bend(1, 0) == wire(0xE0, 0x00, 0x40));
    CHECK(pitch_bend(6, -8192) == wire(0xE5, 0, 0));
    CHECK(pitch_bend(6, 8191) == wire(0xE5, 0x7F, 0x7F));
}

TEST_CASE("a note-on with velocity 0 ends a note and starts none") {
    CHECK(note_on(1, 60, 1).starts_note());
    CHECK_FALSE(note_on(1, 60, 1).ends_note());
    CHECK(note_on(1, 60, 0).ends_note());
    CHECK_FALSE(note_on(1, 60, 0).starts_note());
    CHECK(note_off(1, 60, 90).ends_note());
    CHECK_FALSE(control_change(1, 60, 0).ends_note());
}

TEST_CASE("every bend and channel comes back from its bytes") {
    for (int bend = -8192; bend <= 8191; ++bend) {
        if (pitch_bend(3, bend).bend() != bend) FAIL("bend " << bend);
    }
    for (int channel = 1; channel <= 16; ++channel) {
        CHECK(note_on(channel, 0, 1).channel() == channel);
    }
}
