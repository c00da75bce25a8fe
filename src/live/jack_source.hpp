#pragma once

#include <compline/listen/midi_source.hpp>
#include <compline/live/devices.hpp>
#include <compline/live/playback.hpp>

#include <jack/jack.h>
#include <readerwriterqueue/readerwriterqueue.h>

#include <atomic>
#include <memory>
#include <string>

namespace compline::live {

/// A MIDI port of our own on a JACK server, connected to the port that is listened to. Its events
/// carry their frame within the cycle, so their times are exact. One writer, JACK's thread, and one
/// reader.
class JackSource : public listen::MidiSource, public DeviceClock {
  public:
    /// Frames of the server's, for a stream on the same server; or moments of the steady clock.
    enum class Tell { frames, moments };

    JackSource(const MidiInput& input, Tell tell);
    ~JackSource() override;

    void read(std::vector<listen::Arrival>& into) override;
    [[nodiscard]] std::uint64_t dropped() const override {
        return dropped_.load(std::memory_order_relaxed);
    }
    [[nodiscard]] std::string trouble() override;
    [[nodiscard]] std::uint32_t frame() const noexcept override;

    /// One cycle's events into the queue.
    ///
    /// Threads: JACK only
    /// Real-time: yes
    void take(void* port_buffer, std::uint32_t cycle_start) noexcept;

  private:
    static int process(jack_nframes_t frames, void* source);
    static void shut_down(void* source);
    void connect();
    [[nodiscard]] time::Instant moment_of(std::uint32_t frame) const;

    MidiInput input_;
    Tell tell_;
    struct Close {
        void operator()(jack_client_t* client) const;
    };
    std::unique_ptr<jack_client_t, Close> client_;
    jack_port_t* port_ = nullptr;
    moodycamel::ReaderWriterQueue<listen::Arrival> queue_;
    std::atomic<std::uint64_t> dropped_{0};
    std::atomic<bool> gone_{false};
    static_assert(std::atomic<std::uint64_t>::is_always_lock_free);
};

}  // namespace compline::live
