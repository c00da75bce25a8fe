#pragma once

#include "click_recording.hpp"
#include "ports.hpp"
#include "sounding.hpp"

#include <compline/midi/message.hpp>
#include <compline/sound/wav.hpp>
#include <compline/time/units.hpp>

#include <jack/jack.h>

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace compline::jack {

/// A message and the frame it is for, counted from the first sample of the first click.
struct ScriptedMessage {
    std::int64_t frame = 0;
    midi::Message message;
};

struct PlayerOptions {
    std::string name = "player";  ///< of the client; one that is taken already is an error
    std::string server;           ///< empty: JACK_DEFAULT_SERVER of the environment, else "default"
    time::Seconds room = time::Seconds(30);  ///< recorded from the first click on
    float threshold = 0.001F;  ///< a sample beyond it is the first click; below 0: the first of all
    std::optional<Sounding> sounding = {};  ///< none: no port of sound
};

/// A player on a JACK server, outside of what is measured: it hears on in_1 and in_2, takes the
/// first click as frame 0, records from there on, and sends a script of MIDI messages from
/// `strings`, each at its exact frame; and, where that is asked for, sound from `sound`.
///
/// Frames are counted by the cycles heard, so a recording's sample and a message of the same number
/// are at one moment. JACK delays one connection of a loop by a period: what answers the player
/// hears its messages a constant 0 or 1 periods late (seen: 1, whichever was connected first). When
/// xruns() or jumps() has grown, cycles may be lost between the player and what it measures:
/// measure again.
///
/// A process is a client of one server at a time (libjack keeps one server's memory).
///
/// RtAudio lists a client with audio inputs as a device of that client's name, and a stream opened
/// on it connects itself to in_1 and in_2.
class JackPlayer {
  public:
    /// Opens the client with its ports; no server is started. Throws JackError.
    explicit JackPlayer(const PlayerOptions& options);
    ~JackPlayer();
    JackPlayer(const JackPlayer&) = delete;
    JackPlayer& operator=(const JackPlayer&) = delete;

    /// Begins to listen for the first click, once and for all. The script may be in any order;
    /// messages of one frame keep theirs. Throws JackError.
    void start(std::vector<ScriptedMessage> script = {});

    // Once started. `part` is part of a port's full name, "client:port". False: no such port, yet.
    // Throws JackError when several clients match, or more than one MIDI port does.

    /// `strings` to a MIDI input.
    bool connect_strings_to(const std::string& part);
    /// Nobody hears `strings` any more, though the port stays.
    void disconnect_strings();
    /// An output of audio to both inputs, or the first two of a client to one each.
    bool connect_inputs_from(const std::string& part);

    // These give false when time is up or the server is gone.
    [[nodiscard]] bool wait_for_click(time::Seconds longest) const;
    /// Until no message is left: each is sent, late or unfit.
    [[nodiscard]] bool wait_until_sent(time::Seconds longest) const;
    /// Until that much is recorded, or the room is full.
    [[nodiscard]] bool wait_until_recorded(time::Seconds length, time::Seconds longest) const;

    [[nodiscard]] bool clicked() const { return recording_.clicked(); }
    /// Sample 0 is the click's first; complete up to a cycle ago.
    [[nodiscard]] sound::Stereo recording() const { return recording_.sound(); }
    [[nodiscard]] std::size_t recorded() const { return recording_.size(); }
    [[nodiscard]] bool all_recorded() const { return recorded() == recording_.capacity(); }

    /// Frames of the messages that were sent, in order.
    [[nodiscard]] std::vector<std::int64_t> sent_frames() const;
    [[nodiscard]] std::size_t sent() const { return sent_.load(std::memory_order_acquire); }
    /// Messages whose frame had passed when the click was found.
    [[nodiscard]] std::size_t late() const { return late_.load(std::memory_order_acquire); }
    /// Messages that found their cycle's buffer full (some thousands fit).
    [[nodiscard]] std::size_t unfit() const { return unfit_.load(std::memory_order_acquire); }
    [[nodiscard]] bool all_sent() const { return sent() + late() + unfit() == script_.size(); }

    /// Xruns that the server reported since start().
    [[nodiscard]] int xruns() const { return xruns_.load(); }
    /// Cycles since start() that did not begin on the server's clock where the one before ended.
    [[nodiscard]] int jumps() const { return jumps_.load(); }

    [[nodiscard]] const std::string& name() const { return name_; }
    [[nodiscard]] time::SampleRate rate() const { return rate_; }
    /// Frames a cycle, as the server has it now. Throws JackError after disappear().
    [[nodiscard]] std::uint32_t period() const;
    /// For the whole server: every client's next cycle has that many frames. Throws JackError.
    void set_buffer_size(std::uint32_t frames);

    /// The server ended or threw the player out.
    [[nodiscard]] bool server_gone() const { return gone_.load(); }
    /// Closes the client: its ports are gone as when a cable is pulled. What was recorded stays.
    void disappear();

  private:
    struct Close {
        void operator()(jack_client_t* client) const { ::jack_client_close(client); }
    };

    static int process(jack_nframes_t frames, void* player);
    void run_cycle(jack_nframes_t frames);
    void send_due(std::int64_t first, jack_nframes_t frames, void* buffer);
    void watch_clock(jack_nframes_t frames);
    void open_ports();
    void set_callbacks();
    [[nodiscard]] jack_client_t* client() const;
    [[nodiscard]] std::string port_name(jack_port_t* port) const;
    [[nodiscard]] bool wait(time::Seconds longest, const std::function<bool()>& condition) const;

    std::unique_ptr<jack_client_t, Close> client_;
    std::string name_;
    time::SampleRate rate_;
    std::vector<ScriptedMessage> script_;
    std::vector<std::int64_t>
        sent_frames_;  ///< as long as the script; the first `sent_` are filled
    ClickRecording recording_;
    std::optional<SoundingOut> sounding_;
    jack_port_t* left_ = nullptr;
    jack_port_t* right_ = nullptr;
    jack_port_t* strings_ = nullptr;
    jack_port_t* sound_ = nullptr;

    // The audio thread's own.
    std::size_t next_ = 0;         ///< in the script
    bool cycled_ = false;          ///< a first cycle has run
    jack_nframes_t expected_ = 0;  ///< where the next cycle begins on the server's clock

    std::atomic<std::size_t> sent_ = 0;
    std::atomic<std::size_t> late_ = 0;
    std::atomic<std::size_t> unfit_ = 0;
    std::atomic<int> xruns_ = 0;
    std::atomic<int> jumps_ = 0;
    std::atomic<bool> gone_ = false;
};

}  // namespace compline::jack
