#include "rough_pickup_parts.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace compline::simulate {

namespace {

using midi::TimedMessage;
using time::Seconds;

/// Long enough for six channels to say their bend range over a DIN cable.
constexpr Seconds ahead{0.150};

/// Within one moment: a note ends, the bend moves, a note starts.
int rank(const midi::Message& message) {
    if (message.starts_note()) return 2;
    return message.ends_note() ? 0 : 1;
}

/// All that is said, in order.
std::vector<TimedMessage> spoken(const Sending& sending) {
    std::vector<TimedMessage> messages;
    for (const SentNote& sent : sending.sent) {
        const int channel = channel_of(sending.rough, sent.string);
        messages.push_back({sent.on, midi::note_on(channel, sent.key, sent.velocity)});
        if (sent.ended) messages.push_back({sent.off, midi::note_off(channel, sent.key)});
        for (const Bend& bend : sent.bends) {
            messages.push_back({bend.at, midi::pitch_bend(channel, bend.value)});
        }
    }
    std::stable_sort(messages.begin(), messages.end(), [](const auto& a, const auto& b) {
        return a.at != b.at ? a.at < b.at : rank(a.message) < rank(b.message);
    });
    return messages;
}

/// Says all that was spoken; a new note without the old one's bend.
void say_with_bends_returned(std::vector<TimedMessage>& messages,
                             const std::vector<TimedMessage>& spoken) {
    std::array<int, 17> bends{};
    for (const auto& timed : spoken) {
        const int channel = timed.message.channel();
        int& bend = bends.at(static_cast<std::size_t>(channel));
        if (timed.message.kind() == midi::Message::Kind::pitch_bend) bend = timed.message.bend();
        if (timed.message.starts_note() && bend != 0) {
            messages.push_back({timed.at, midi::pitch_bend(channel, 0)});
            bend = 0;
        }
        messages.push_back(timed);
    }
}

/// RPN 0, then the null parameter, so that later data entries change nothing.
void tell_bend_range(std::vector<TimedMessage>& messages, int channel, double range, Seconds at) {
    const int semitones = static_cast<int>(std::floor(range));
    const int cents = static_cast<int>(std::lround((range - semitones) * 100));
    constexpr std::array<int, 6> controllers = {101, 100, 6, 38, 101, 100};
    const std::array<int, 6> values = {0, 0, semitones, cents, 127, 127};
    for (std::size_t i = 0; i < controllers.size(); ++i) {
        messages.push_back({at, midi::control_change(channel, controllers.at(i), values.at(i))});
    }
}

}  // namespace

int channel_of(const Roughness& rough, int string) {
    const int first = rough.strings.first_channel;
    if (rough.one_channel) return first;
    return first +
           (rough.strings.low_string_first ? rough.fretboard.strings() - string : string - 1);
}

std::vector<TimedMessage> messages_of(const Sending& sending) {
    std::vector<TimedMessage> messages;
    const auto all = spoken(sending);
    if (all.empty()) return messages;
    if (sending.rough.tells_bend_range) {
        std::set<int> channels;
        for (int s = 1; s <= sending.rough.fretboard.strings(); ++s) {
            channels.insert(channel_of(sending.rough, s));
        }
        for (const int channel : channels) {
            tell_bend_range(messages, channel, sending.rough.bend_range, all.front().at - ahead);
        }
    }
    say_with_bends_returned(messages, all);
    return messages;
}

}  // namespace compline::simulate
