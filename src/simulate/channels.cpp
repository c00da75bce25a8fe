#include <compline/simulate/played.hpp>

#include <array>

namespace compline::simulate {

namespace {

using midi::TimedMessage;

constexpr int strings = 6;

/// Of a message on the channel of its string.
int channel_of(ChannelLayout channels, int string) {
    switch (channels) {
        case ChannelLayout::high_string_first:
            return string;
        case ChannelLayout::low_string_first:
            return strings + 1 - string;
        case ChannelLayout::from_eleven:
            return 10 + string;
        case ChannelLayout::one_for_all:
            return 1;
    }
    return string;
}

/// Which string a note sounds on, where all are on one channel.
class OneChannel {
  public:
    void add(const TimedMessage& timed, std::vector<TimedMessage>& sent) {
        const int note = timed.message.data1;
        const int string = timed.message.channel();
        auto& sounding = sounding_.at(static_cast<std::size_t>(note));
        if (timed.message.starts_note()) {
            if (sounding != 0) sent.push_back({timed.at, midi::note_off(1, note)});
            sounding = string;
            sent.push_back({timed.at, midi::note_on(1, note, timed.message.data2)});
        } else if (sounding == string) {
            sounding = 0;
            sent.push_back({timed.at, midi::note_off(1, note)});
        }
    }

  private:
    std::array<int, 128> sounding_{};
};

}  // namespace

std::vector<TimedMessage> sent_on(ChannelLayout channels, std::vector<TimedMessage> messages) {
    std::vector<TimedMessage> sent;
    OneChannel one;
    for (auto& timed : messages) {
        if (channels == ChannelLayout::one_for_all) {
            one.add(timed, sent);
            continue;
        }
        const int channel = channel_of(channels, timed.message.channel());
        timed.message.status =
            static_cast<std::uint8_t>((timed.message.status & 0xF0) | (channel - 1));
        sent.push_back(timed);
    }
    return sent;
}

}  // namespace compline::simulate
