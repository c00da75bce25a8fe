#pragma once

#include <compline/listen/midi_source.hpp>
#include <compline/midi/stream_reader.hpp>

#include <readerwriterqueue/readerwriterqueue.h>

#include <atomic>
#include <cstdint>

namespace compline::live {

/// What comes to a JACK MIDI port, on its way from JACK's thread (the one writer) to the one
/// reader.
class JackInbox {
  public:
    JackInbox();

    /// A cycle's channel messages, each with the frame of the event that completed it. JACK asks
    /// for a whole message an event, but passes on whatever a client writes: several in one,
    /// running status, pieces. What finds no room is counted, and what makes no message too.
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

    /// Bytes that made no message.
    ///
    /// Threads: any
    /// Real-time: yes
    [[nodiscard]] std::uint64_t unreadable() const noexcept {
        return unreadable_.load(std::memory_order_relaxed);
    }

  private:
    void put(const midi::Message& message, std::uint32_t frame) noexcept;

    /// Room in few large pieces: each has a head of its own, and with it a page in use.
    moodycamel::ReaderWriterQueue<listen::Arrival, 4096> queue_;
    std::atomic<std::uint64_t> dropped_{0};
    std::atomic<std::uint64_t> unreadable_{0};
    midi::StreamReader reader_;  // JACK's thread's
    static_assert(std::atomic<std::uint64_t>::is_always_lock_free);
};

}  // namespace compline::live
