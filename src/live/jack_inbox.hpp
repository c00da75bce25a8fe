#pragma once

#include <compline/listen/midi_source.hpp>

#include <readerwriterqueue/readerwriterqueue.h>

#include <atomic>
#include <cstdint>

namespace compline::live {

/// What comes to a JACK MIDI port, on its way from JACK's thread (the one writer) to the one
/// reader.
class JackInbox {
  public:
    JackInbox();

    /// A cycle's channel messages, each with the frame it came at. What finds no room is counted.
    ///
    /// Threads: JACK only
    /// Real-time: yes
    void take(void* port_buffer, std::uint32_t cycle_start) noexcept;

    /// The oldest that was not read yet; false when there is none.
    ///
    /// Threads: reader only
    /// Real-time: yes
    bool read(listen::Arrival& arrival) noexcept { return queue_.try_dequeue(arrival); }

    /// Threads: any
    /// Real-time: yes
    [[nodiscard]] std::uint64_t dropped() const noexcept {
        return dropped_.load(std::memory_order_relaxed);
    }

  private:
    moodycamel::ReaderWriterQueue<listen::Arrival> queue_;
    std::atomic<std::uint64_t> dropped_{0};
    static_assert(std::atomic<std::uint64_t>::is_always_lock_free);
};

}  // namespace compline::live
