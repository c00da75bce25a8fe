// MIDI as it comes over a cable: what was sent is understood, and what cannot be is counted.

#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/midi/stream_reader.hpp>
#include <compline/simulate/chance.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <string>
#include <vector>

using namespace compline;
using namespace compline::midi;
using namespace compline::tests;
using simulate::Chance;

namespace {

using Bytes = std::vector<std::uint8_t>;

struct Read {
    std::vector<Message> messages;
    StreamReader reader;
};

Read read(const Bytes& bytes) {
    Read result;
    for (const auto byte : bytes) {
        if (const auto message = result.reader.push(byte)) result.messages.push_back(*message);
    }
    return result;
}

/// What is read of bytes that are all understood.
std::vector<Message> understood(const Bytes& bytes) {
    const auto result = read(bytes);
    CHECK(result.reader.unreadable() == Unreadable{});
    CHECK_FALSE(result.reader.is_under_way());
    CHECK(read_stream(bytes) == result.messages);
    return result.messages;
}

Unreadable unreadable(const Bytes& bytes) { return read(bytes).reader.unreadable(); }

std::vector<Message> two_notes() { return {note_on(1, 60, 80), note_on(1, 64, 81)}; }

std::uint8_t byte_below(Chance& chance, int limit) {
    return static_cast<std::uint8_t>(chance.below(static_cast<std::uint64_t>(limit)));
}

Message any_message(Chance& chance) {
    Message message{static_cast<std::uint8_t>(0x80 + byte_below(chance, 0x70)),
                    byte_below(chance, 0x80), 0};
    if (message.data_bytes() == 2) message.data2 = byte_below(chance, 0x80);
    return message;
}

/// Runs of one status, as chords and bends make them, so that running status has something to save.
std::vector<Message> any_messages(Chance& chance) {
    std::vector<Message> messages;
    const auto count = chance.below(60);
    for (std::uint64_t i = 0; i < count; ++i) {
        auto message = any_message(chance);
        const bool again = !messages.empty() && chance.below(3) > 0;
        if (again) {
            message.status = messages.back().status;
            if (message.data_bytes() == 1) message.data2 = 0;
        }
        messages.push_back(message);
    }
    return messages;
}

enum class Sender { plain, with_running_status };

Bytes written(const std::vector<Message>& messages, Sender sender) {
    Bytes bytes;
    std::uint8_t last = 0;
    for (const auto& message : messages) {
        if (sender == Sender::plain || message.status != last) bytes.push_back(message.status);
        bytes.push_back(message.data1);
        if (message.data_bytes() == 2) bytes.push_back(message.data2);
        last = message.status;
    }
    return bytes;
}

Bytes with_real_time(const Bytes& bytes, Chance& chance) {
    Bytes strewn;
    for (const auto byte : bytes) {
        while (chance.below(3) == 0) {
            strewn.push_back(static_cast<std::uint8_t>(0xF8 + byte_below(chance, 8)));
        }
        strewn.push_back(byte);
    }
    return strewn;
}

std::string error_of(const Bytes& bytes) {
    try {
        (void)read_stream(bytes);
    } catch (const text::BadInput& error) {
        CHECK(error.offset() <= bytes.size());
        return error.what();
    }
    return "";
}

}  // namespace

TEST_CASE("a message is there with its last byte and not before", "[midi][stream]") {
    StreamReader reader;
    CHECK_FALSE(reader.push(0x90));
    CHECK_FALSE(reader.push(60));
    CHECK(reader.push(80) == note_on(1, 60, 80));
    CHECK_FALSE(reader.push(0xC5));
    CHECK(reader.push(32) == program_change(6, 32));
}

TEST_CASE("a status that is not sent again goes on for the next note", "[midi][stream]") {
    CHECK(understood({0x90, 60, 80, 64, 81}) == two_notes());
    CHECK(understood({0xC0, 1, 2, 3}) ==
          std::vector{program_change(1, 1), program_change(1, 2), program_change(1, 3)});
}

TEST_CASE("a clock that ticks inside a note leaves the note whole, and running status too",
          "[midi][stream]") {
    CHECK(understood({0x90, 0xF8, 60, 0xFE, 80, 0xF8, 64, 0xFF, 81}) == two_notes());
    // Those that MIDI 1.0 leaves undefined count as little.
    CHECK(understood({0x90, 0xF9, 60, 0xFD, 80, 0xFD, 64, 81}) == two_notes());
}

TEST_CASE("system exclusive is passed over, however long, and ends running status",
          "[midi][stream]") {
    Bytes bytes{0x90, 60, 80, 0xF0};
    bytes.insert(bytes.end(), 100'000, 0x55);
    bytes.insert(bytes.end(), {0xF8, 0x7D, 0xF7, 0x90, 64, 81});
    CHECK(understood(bytes) == two_notes());
    CHECK(unreadable({0x90, 60, 80, 0xF0, 1, 0xF7, 64, 81}).stray_bytes == 2);
}

TEST_CASE("system exclusive that is never ended ends with the next status", "[midi][stream]") {
    CHECK(understood({0xF0, 0x43, 1, 2, 0x90, 60, 80, 64, 81}) == two_notes());
    CHECK(understood({0xF0, 0x43, 0xF0, 0x44, 0xF7, 0x90, 60, 80, 64, 81}) == two_notes());
    CHECK(understood({0xF0, 0x43, 0xF6, 0x90, 60, 80, 64, 81}) == two_notes());
}

TEST_CASE("system common messages are passed over with their data and end running status",
          "[midi][stream]") {
    CHECK(understood({0x90, 60, 80, 0xF2, 1, 2, 0xF1, 3, 0xF3, 4, 0xF6, 0x90, 64, 81}) ==
          two_notes());
    for (const Bytes& common :
         {Bytes{0xF1, 1}, Bytes{0xF2, 1, 2}, Bytes{0xF3, 1}, Bytes{0xF6}, Bytes{0xF0, 0xF7}}) {
        Bytes bytes{0x90, 60, 80};
        bytes.insert(bytes.end(), common.begin(), common.end());
        bytes.insert(bytes.end(), {64, 81});
        INFO(fmt::format("0x{:02X}", common.front()));
        CHECK(read(bytes).messages.size() == 1);
        CHECK(unreadable(bytes) == Unreadable{2, 0, 0});
    }
}

TEST_CASE("data that comes before any status is counted, and the first note after it is heard",
          "[midi][stream]") {
    const Bytes bytes{60, 80, 64, 0x90, 60, 80, 0x90, 64, 81};
    CHECK(read(bytes).messages == two_notes());
    CHECK(unreadable(bytes) == Unreadable{3, 0, 0});
}

TEST_CASE("a message broken off by another is counted, and the other one is heard",
          "[midi][stream]") {
    const Bytes bytes{0x90, 50, 0x90, 60, 80, 51, 0x90, 64, 81};
    CHECK(read(bytes).messages == two_notes());
    // 0x90 50, and 51 alone: its status was used before.
    CHECK(unreadable(bytes) == Unreadable{0, 2, 3});
    CHECK(unreadable(bytes).bytes() == 3);
    CHECK(unreadable({0x90, 0x80, 60, 0}) == Unreadable{0, 1, 1});
    CHECK(unreadable({0x90, 50, 0xF8, 0x80, 60, 0}) == Unreadable{0, 1, 2});
    CHECK(unreadable({0xF2, 1, 0xF1, 0xF6}) == Unreadable{0, 2, 3});
}

TEST_CASE("statuses that MIDI leaves undefined are counted with the data behind them",
          "[midi][stream]") {
    const Bytes bytes{0x90, 60, 80, 0xF4, 1, 0xF5, 2, 3, 0x90, 64, 81};
    CHECK(read(bytes).messages == two_notes());
    CHECK(unreadable(bytes) == Unreadable{5, 0, 0});
    CHECK(unreadable({0x90, 60, 0xF4}) == Unreadable{1, 1, 2});
    CHECK(unreadable({0xF7, 0xF0, 0xF7, 0xF7}) == Unreadable{2, 0, 0});
}

TEST_CASE("any messages read back as they were, with and without running status",
          "[midi][stream]") {
    Chance chance(1);
    for (int round = 0; round < 300; ++round) {
        const auto messages = any_messages(chance);
        const auto plain = written(messages, Sender::plain);
        const auto running = written(messages, Sender::with_running_status);
        INFO("round " << round);
        REQUIRE(read_stream(plain) == messages);
        REQUIRE(read_stream(running) == messages);
        REQUIRE(read_stream(with_real_time(plain, chance)) == messages);
        REQUIRE(read_stream(with_real_time(running, chance)) == messages);
    }
}

TEST_CASE("every byte of a stream of rubbish is in a message or counted", "[midi][stream]") {
    Chance chance(2);
    for (int round = 0; round < 300; ++round) {
        Bytes bytes;
        for (int i = 0; i < 50; ++i) bytes.push_back(byte_below(chance, 0xF0));
        // No system message among them: what is not in a message must have been counted.
        const auto result = read(bytes);
        const auto& reader = result.reader;
        std::uint64_t sent = reader.unreadable().bytes();
        std::uint8_t last = 0;
        // A status sent again could have been left out, so the fewest and the most may differ.
        std::uint64_t repeated = 0;
        for (const auto& message : result.messages) {
            sent += static_cast<std::uint64_t>(message.data_bytes());
            if (message.status == last) {
                ++repeated;
            } else {
                ++sent;
            }
            last = message.status;
        }
        constexpr std::uint64_t at_most_under_way = 2;
        INFO("round " << round);
        REQUIRE(sent <= bytes.size());
        REQUIRE(sent + repeated + at_most_under_way >= bytes.size());
    }
}

TEST_CASE("a stream that must be flawless is refused where it is not, with the byte",
          "[midi][stream]") {
    CHECK(error_of({0x90, 60, 80, 64, 81}).empty());
    CHECK(error_of({}).empty());
    CHECK(error_of({0xF8, 60}) ==
          "byte 1: found data byte 0x3C, expected a status byte (0x80 or more): no running status "
          "here");
    CHECK(error_of({0x90, 60, 0x85}) ==
          "byte 2: found status byte 0x85, expected a data byte (0x00 to 0x7F) of message 0x90");
    CHECK(error_of({0x90, 60}) ==
          "byte 2: found the end of the data, expected a data byte (0x00 to 0x7F) of message 0x90");
    CHECK(error_of({0xF0, 60}) ==
          "byte 2: found the end of the data, expected the end of system exclusive (0xF7)");
    CHECK(error_of({0xF7}) ==
          "byte 0: found the end of system exclusive (0xF7), expected its beginning (0xF0) before "
          "it");
    CHECK(error_of({0xF0, 0xF4}) ==
          "byte 1: found status byte 0xF4, expected one that MIDI 1.0 defines");
    CHECK(error_of({0xF2, 1, 0xF7}) ==
          "byte 2: found status byte 0xF7, expected a data byte (0x00 to 0x7F) of message 0xF2");
}

namespace {

void append(Bytes& bytes, const Bytes& more) {
    bytes.insert(bytes.end(), more.begin(), more.end());
}

/// A piece of a rough stream that mido reads by the same rules. It knows no running status, and no
/// real-time bytes inside of a message: a tune request ends the one and stray data follows it.
Bytes any_piece(Chance& chance) {
    const auto message = any_message(chance);
    Bytes whole{message.status, message.data1};
    if (message.data_bytes() == 2) whole.push_back(message.data2);
    Bytes piece;
    switch (chance.below(6)) {
        case 0:  // broken off
            append(piece, {message.status});
            if (message.data_bytes() == 2) piece.push_back(message.data1);
            append(piece, {0xF6, byte_below(chance, 0x80)});
            break;
        case 1:
            append(piece, {0xF0, message.data1, 0xF8, message.data1});
            if (chance.below(2) == 0) piece.push_back(0xF7);
            append(piece, {0xF6});
            break;
        case 2:
            append(piece, {0xF2, message.data1, message.data1, message.data1});
            break;
        case 3:
            append(piece, {0xF7, message.data1, 0xFE, message.data1});
            break;
        default:
            append(piece, whole);
            append(piece, {0xF8, 0xF6});
            if (chance.below(2) == 0) piece.push_back(message.data1);
            break;
    }
    return piece;
}

}  // namespace

TEST_CASE("mido hears the same channel messages in a rough stream as we do", "[midi][stream]") {
    if (!outside_python_module("mido")) return;
    Chance chance(3);
    Bytes bytes;
    for (int piece = 0; piece < 3000; ++piece) append(bytes, any_piece(chance));
    const TemporaryFolder folder;
    const auto stream = folder.file("stream");
    files::save_bytes(stream, bytes, files::Existing::keep);
    const auto script =
        std::filesystem::path(COMPLINE_SOURCE_DIR) / "tests/midi/parse_with_mido.py";
    const auto [status, output] = run("/usr/bin/python3 " + shell_quote(script.string()) + " " +
                                      shell_quote(stream.string()));
    CHECK(status == 0);
    std::string ours;
    const auto result = read(bytes);
    for (const auto& message : result.messages) {
        ours += fmt::format("{:02X} {:02X}", message.status, message.data1);
        ours += message.data_bytes() == 2 ? fmt::format(" {:02X}\n", message.data2) : "\n";
    }
    CHECK(result.messages.size() > 900);
    CHECK(result.reader.unreadable().broken_messages > 300);
    CHECK(output == ours);
}
