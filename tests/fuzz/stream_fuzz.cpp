// Any bytes: the stream reader goes on whatever comes, and what it gives are channel messages that
// are written and read back the same. The strict reader says no with a place inside the data, and
// does so exactly where something was unreadable or left unfinished.
#include <compline/midi/stream_reader.hpp>
#include <compline/text/bad_input.hpp>

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <span>
#include <vector>

using namespace compline;

namespace {

void require(bool condition) {
    if (!condition) std::abort();
}

void check_messages(const std::vector<midi::Message>& messages) {
    for (const auto& message : messages) {
        require(message.status >= 0x80 && message.status < 0xF0);
        require(message.data1 < 0x80 && message.data2 < 0x80);
        require(message.data_bytes() == 2 || message.data2 == 0);
        require(message.channel() >= 1 && message.channel() <= 16);
    }
}

std::vector<std::uint8_t> written(const std::vector<midi::Message>& messages, bool running_status) {
    std::vector<std::uint8_t> bytes;
    std::uint8_t last = 0;
    for (const auto& message : messages) {
        if (!running_status || message.status != last) bytes.push_back(message.status);
        bytes.push_back(message.data1);
        if (message.data_bytes() == 2) bytes.push_back(message.data2);
        last = message.status;
    }
    return bytes;
}

void check_strict(std::span<const std::uint8_t> bytes, const midi::StreamReader& reader,
                  const std::vector<midi::Message>& messages) {
    const bool flawless = reader.unreadable() == midi::Unreadable{} && !reader.is_under_way();
    try {
        require(midi::read_stream(bytes) == messages);
        require(flawless);
    } catch (const text::BadInput& error) {
        require(error.offset() <= bytes.size());
        require(!flawless);
    }
}

}  // namespace

// libFuzzer calls it by this name. NOLINTNEXTLINE(readability-identifier-naming)
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::span<const std::uint8_t> bytes(data, size);
    midi::StreamReader reader;
    std::vector<midi::Message> messages;
    for (const auto byte : bytes) {
        if (const auto message = reader.push(byte)) messages.push_back(*message);
    }
    require(reader.unreadable().bytes() <= size);
    require(reader.unreadable().broken_messages <= reader.unreadable().broken_bytes);
    check_messages(messages);
    check_strict(bytes, reader, messages);
    require(midi::read_stream(written(messages, false)) == messages);
    require(midi::read_stream(written(messages, true)) == messages);
    return 0;
}
