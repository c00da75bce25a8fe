#include "jack_inbox.hpp"

#include <jack/midiport.h>

namespace compline::live {

namespace {

constexpr std::size_t most_waiting = std::size_t{1} << 16U;  // at 3,000 a second, 20 s

}  // namespace

JackInbox::JackInbox() : queue_(most_waiting) {}

void JackInbox::take(void* port_buffer, std::uint32_t cycle_start) noexcept {
    const std::uint32_t count = ::jack_midi_get_event_count(port_buffer);
    for (std::uint32_t i = 0; i < count; ++i) {
        jack_midi_event_t event;
        if (::jack_midi_event_get(&event, port_buffer, i) != 0) continue;
        for (std::size_t at = 0; at < event.size; ++at) {
            const auto message = reader_.push(event.buffer[at]);
            if (message) put(*message, cycle_start + event.time);
        }
    }
    unreadable_.store(reader_.unreadable().bytes(), std::memory_order_relaxed);
}

void JackInbox::put(const midi::Message& message, std::uint32_t frame) noexcept {
    listen::Arrival arrival;
    arrival.message = message;
    arrival.timing = listen::Arrival::Timing::at_a_device_frame;
    arrival.device_frame = frame;
    if (!queue_.try_enqueue(arrival)) dropped_.fetch_add(1, std::memory_order_relaxed);
}

}  // namespace compline::live
