#pragma once

#include "jack_client.hpp"
#include "jack_inbox.hpp"

#include <compline/listen/midi_source.hpp>
#include <compline/live/devices.hpp>
#include <compline/live/playback.hpp>

#include <atomic>
#include <memory>
#include <string>

namespace compline::live {

/// A MIDI port of our own on a JACK server, connected to the port that is listened to. Its events
/// carry their frame within the cycle, so their times are exact. One writer, JACK's thread, and one
/// reader. A third thread, JACK's own for news of its ports, sets `registered_` alone.
class JackSource : public listen::MidiSource, public DeviceClock {
  public:
    /// Frames of the server's, for a stream on the same server; or moments of the steady clock.
    enum class TimedBy { frames, moments };

    /// `client`: what we are called on the server.
    JackSource(const MidiInput& input, TimedBy timed_by, std::string client);
    ~JackSource() override;

    void read(std::vector<listen::Arrival>& into) override;
    [[nodiscard]] std::uint64_t dropped() const override { return inbox_.dropped(); }
    [[nodiscard]] std::uint64_t unreadable() const override { return inbox_.unreadable(); }
    [[nodiscard]] std::string trouble() override;
    [[nodiscard]] std::uint32_t frame() const noexcept override;

  private:
    static int process(jack_nframes_t frames, void* source);
    static void shut_down(void* source);
    static void see_port(jack_port_id_t port, int registered, void* source);
    void open();
    bool open_again();
    bool connect();
    [[nodiscard]] time::Instant moment_of(std::uint32_t frame) const;

    MidiInput input_;
    TimedBy timed_by_;
    std::string name_;  ///< of our client
    JackClient client_;
    jack_port_t* port_ = nullptr;
    JackInbox inbox_;
    std::atomic<bool> gone_{false};
    std::atomic<bool> registered_{false};  ///< a port of that name has come
    bool was_away_ = false;
};

}  // namespace compline::live
