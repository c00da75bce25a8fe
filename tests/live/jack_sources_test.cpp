// Whatever a JACK client writes to its port: both ways of listening hear the same notes in it, and
// count what makes none.

#include "live/jack_server.hpp"
#include "support/catch.hpp"

#include <compline/live/midi_port.hpp>

#include <jack/jack.h>
#include <jack/midiport.h>
#include <unistd.h>

#include <atomic>
#include <string>
#include <vector>

using namespace compline;
using tests::JackServer;

namespace {

using Bytes = std::vector<std::uint8_t>;

/// What a port sends in one cycle: events in order, as the bytes that they are.
const std::vector<Bytes>& rough_events() {
    static const std::vector<Bytes> events{
        {0x90, 60, 80},
        {0x90, 61, 80, 0x91, 62, 80},  // two messages
        {0x92, 63, 80, 64, 80},        // running status
        {0x92, 0xF8, 65, 80},          // a clock inside
        {0xF0, 0x43, 1, 2, 0xF7},      // nothing of ours
        {66, 80},                      // data without a status
        {0xB0, 101},                   // a piece: it is broken off
        {0xC0, 7, 0xFE},
        {0xF4, 1},  // undefined
        {0xE1, 0, 0x40},
    };
    return events;
}

std::vector<midi::Message> in_rough_events() {
    return {midi::note_on(1, 60, 80),   midi::note_on(1, 61, 80), midi::note_on(2, 62, 80),
            midi::note_on(3, 63, 80),   midi::note_on(3, 64, 80), midi::note_on(3, 65, 80),
            midi::program_change(1, 7), midi::pitch_bend(2, 0)};
}
constexpr std::uint64_t rough_bytes = 6;

/// A client with a port that sends its events when it is told to, all in one cycle.
class RoughPort {
  public:
    RoughPort() : client_(::jack_client_open("rough", JackNoStartServer, nullptr)) {
        REQUIRE(client_ != nullptr);
        port_ = ::jack_port_register(client_, "out", JACK_DEFAULT_MIDI_TYPE, JackPortIsOutput, 0);
        ::jack_set_process_callback(client_, &RoughPort::process, this);
        REQUIRE(::jack_activate(client_) == 0);
    }
    ~RoughPort() { ::jack_client_close(client_); }
    RoughPort(const RoughPort&) = delete;
    RoughPort& operator=(const RoughPort&) = delete;

    void send() { asked_ = true; }

  private:
    static int process(jack_nframes_t frames, void* port) {
        static_cast<RoughPort*>(port)->run(frames);
        return 0;
    }
    void run(jack_nframes_t frames) {
        void* const out = ::jack_port_get_buffer(port_, frames);
        ::jack_midi_clear_buffer(out);
        if (!asked_.exchange(false)) return;
        jack_nframes_t at = 3;
        for (const auto& event : rough_events()) {
            (void)::jack_midi_event_write(out, at, event.data(), event.size());
            at += 10;
        }
    }

    jack_client_t* client_;
    jack_port_t* port_ = nullptr;
    std::atomic<bool> asked_{false};
};

std::vector<listen::Arrival> heard_through(const std::string& api) {
    RoughPort rough;
    const auto port = live::open_input({api, "rough:out"}, "JACK");
    ::usleep(100'000);  // a connection is made between cycles
    rough.send();
    std::vector<listen::Arrival> arrivals;
    for (int turn = 0; turn < 500 && arrivals.size() < in_rough_events().size(); ++turn) {
        ::usleep(10'000);
        port.source->read(arrivals);
    }
    CHECK(port.source->unreadable() == rough_bytes);
    CHECK(port.source->dropped() == 0);
    std::vector<midi::Message> messages;
    for (const auto& arrival : arrivals) messages.push_back(arrival.message);
    CHECK(messages == in_rough_events());
    return arrivals;
}

}  // namespace

TEST_CASE("a JACK port that sends several messages in one event, or rubbish, is understood",
          "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    const auto arrivals = heard_through("JACK");
    REQUIRE(arrivals.size() == in_rough_events().size());
    const auto after_first = [&](std::size_t n) {
        return arrivals[n].device_frame - arrivals[0].device_frame;
    };
    CHECK(after_first(1) == 10);
    CHECK(after_first(2) == 10);  // the same event
    CHECK(after_first(3) == 20);
    CHECK(after_first(7) == 90);
}

TEST_CASE("through RtMidi such a port is understood too", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    (void)heard_through("RtMidi/JACK");
}
