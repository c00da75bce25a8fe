#include "support/smf_bytes.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <random>
#include <utility>

namespace compline::tests {

namespace {

Bytes big_endian(std::uint32_t value, int bytes) {
    Bytes out;
    for (int i = bytes - 1; i >= 0; --i) {
        out.push_back(static_cast<std::uint8_t>(value >> static_cast<unsigned>(8 * i)));
    }
    return out;
}

/// Draws from a generator that is the same on every machine; the standard's distributions are not.
class ByteDice {
  public:
    explicit ByteDice(std::uint32_t seed) : generator_(seed) {}
    int below(int n) { return static_cast<int>(generator_() % static_cast<std::uint32_t>(n)); }
    std::uint8_t byte(int n = 256) { return static_cast<std::uint8_t>(below(n)); }
    template <typename Container>
    Container bytes(int count) {
        Container out;
        for (int i = 0; i < count; ++i) {
            out.push_back(static_cast<typename Container::value_type>(byte()));
        }
        return out;
    }

  private:
    std::mt19937 generator_;
};

midi::Message random_message(ByteDice& dice) {
    midi::Message message{static_cast<std::uint8_t>(0x80 + dice.below(0x70)), dice.byte(128), 0};
    if (message.data_bytes() == 2) message.data2 = dice.byte(128);
    return message;
}

midi::MetaEvent random_meta(ByteDice& dice) {
    if (dice.below(3) == 0) return midi::tempo_event(time::Bpm(30 + dice.below(370)));
    midi::MetaEvent event{dice.byte(128), {}};
    if (event.type == midi::meta::end_of_track || event.type == midi::meta::tempo) event.type = 1;
    // Lengths of one and of two bytes.
    event.data =
        dice.bytes<std::string>(dice.below(8) == 0 ? 100 + dice.below(100) : dice.below(9));
    return event;
}

midi::SystemExclusive random_exclusive(ByteDice& dice) {
    midi::SystemExclusive event{dice.bytes<Bytes>(1 + dice.below(9))};
    event.bytes[0] = dice.below(2) == 0 ? 0xF0 : 0xF7;
    return event;
}

std::int64_t random_delta(ByteDice& dice) {
    // Each length of a variable-length quantity, both ends included.
    constexpr std::array<int, 9> ends{0,        0x7F,     0x80,       0x3FFF, 0x4000,
                                      0x1FFFFF, 0x200000, 0x0FFFFFFF, 0};
    return dice.below(12) == 0 ? ends[static_cast<std::size_t>(dice.below(9))] : dice.below(300);
}

midi::Track random_track(ByteDice& dice) {
    midi::Track track;
    const int events = dice.below(60);
    for (int i = 0; i < events; ++i) {
        track.end += random_delta(dice);
        const int kind = dice.below(8);
        if (kind == 0) {
            track.add(track.end, random_exclusive(dice));
        } else if (kind <= 2) {
            track.add(track.end, random_meta(dice));
        } else {
            track.add(track.end, random_message(dice));
        }
    }
    track.end += random_delta(dice);
    return track;
}

}  // namespace

Bytes hex(const std::string& digits) {
    std::string packed;
    for (const char c : digits) {
        if (std::isxdigit(static_cast<unsigned char>(c)) != 0) packed += c;
    }
    Bytes out;
    for (std::size_t i = 0; i + 1 < packed.size(); i += 2) {
        out.push_back(static_cast<std::uint8_t>(std::stoi(packed.substr(i, 2), nullptr, 16)));
    }
    return out;
}

Bytes ascii(const std::string& text) { return {text.begin(), text.end()}; }

Bytes operator+(Bytes a, const Bytes& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
}

Bytes header(int format, int tracks, int division) {
    Bytes out = ascii("MThd") + big_endian(6, 4);
    for (const int field : {format, tracks, division}) {
        out = out + big_endian(static_cast<std::uint32_t>(field), 2);
    }
    return out;
}

Bytes track(const Bytes& body, std::optional<std::uint32_t> length) {
    const auto given = length.value_or(static_cast<std::uint32_t>(body.size()));
    return ascii("MTrk") + big_endian(given, 4) + body;
}

Bytes one_track(const std::string& body_digits) {
    return header(0, 1, 96) + track(hex(body_digits));
}

midi::File random_file(std::uint32_t seed) {
    ByteDice dice(seed);
    midi::File file;
    file.format = dice.below(3);
    if (dice.below(4) == 0) {
        constexpr std::array<int, 4> rates{24, 25, 29, 30};
        file.frames_per_second = rates[static_cast<std::size_t>(dice.below(4))];
        file.division = 1 + dice.below(255);
    } else {
        file.division = 1 + dice.below(32767);
    }
    const int tracks = file.format == 0 ? 1 : 1 + dice.below(4);
    for (int i = 0; i < tracks; ++i) file.tracks.push_back(random_track(dice));
    return file;
}

std::vector<TickedMessage> messages_of(const midi::Track& track) {
    std::vector<TickedMessage> messages;
    for (const midi::TrackEvent& event : track.events) {
        if (const auto* message = std::get_if<midi::Message>(&event.event)) {
            messages.push_back({event.tick, *message});
        }
    }
    return messages;
}

}  // namespace compline::tests
