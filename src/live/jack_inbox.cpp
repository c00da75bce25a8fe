#include "jack_inbox.hpp"

#include <jack/midiport.h>

namespace compline::live {

namespace {

constexpr std::size_t most_waiting = std::size_t{1} << 16U;  // at 3,000 a second, 20 s

bool is_for_a_channel(const jack_midi_event_t& event) {
    return event.size >= 2 && event.size <= 3 && event.buffer[0] >= 0x80 && event.buffer[0] < 0xF0;
}

}  // namespace

JackInbox::JackInbox() : queue_(most_waiting) {}

void JackInbox::take(void* port_buffer, std::uint32_t cycle_start) noexcept {
    const std::uint32_t count = ::jack_midi_get_event_count(port_buffer);
    for (std::uint32_t i = 0; i < count; ++i) {
        jack_midi_event_t event;
        if (::jack_midi_event_get(&event, port_buffer, i) != 0) continue;
        if (!is_for_a_channel(event)) continue;
        listen::Arrival arrival;
        arrival.message = {event.buffer[0], event.buffer[1],
                           event.size > 2 ? event.buffer[2] : std::uint8_t{0}};
        arrival.told = listen::Arrival::Told::at_a_device_frame;
        arrival.device_frame = cycle_start + event.time;
        if (!queue_.try_enqueue(arrival)) dropped_.fetch_add(1, std::memory_order_relaxed);
    }
}

}  // namespace compline::live
