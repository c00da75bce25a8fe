#include "rough_pickup_parts.hpp"

#include <algorithm>
#include <cmath>

namespace compline::simulate {

namespace {

using time::Seconds;

/// Ten bits a byte at 31,250 baud (MIDI 1.0).
constexpr Seconds byte_time{10 / 31250.0};
/// After a pause senders say the status again, for a receiver that was plugged in meanwhile.
constexpr Seconds longest_running{0.300};

void in_frames(std::vector<midi::TimedMessage>& messages) {
    // What falls on a frame to within rounding is in that frame.
    for (auto& timed : messages) {
        timed.at = Seconds(std::ceil(timed.at.count() * 1000 - 1e-6) / 1000);
    }
}

/// Note-offs are said as note-ons of velocity 0: that keeps the status running.
void one_after_the_other(std::vector<midi::TimedMessage>& messages) {
    Seconds free{-1e12};
    int running = 0;
    for (auto& timed : messages) {
        auto& message = timed.message;
        if (message.kind() == midi::Message::Kind::note_off) {
            message = midi::note_on(message.channel(), message.data1, 0);
        }
        const Seconds start = std::max(timed.at, free);
        const bool runs = running == message.status && start - free <= longest_running;
        running = message.status;
        free = start + byte_time * (message.data_bytes() + (runs ? 0 : 1));
        timed.at = free;
    }
}

}  // namespace

void transport(std::vector<midi::TimedMessage>& messages, Transport how) {
    if (how == Transport::usb) in_frames(messages);
    if (how == Transport::din) one_after_the_other(messages);
}

}  // namespace compline::simulate
