#include "../../src/live/jack_inbox.hpp"

#include "live/jack_server.hpp"
#include "realtime/forbidden.hpp"
#include "support/catch.hpp"

#include <jack/jack.h>
#include <jack/midiport.h>
#include <unistd.h>

#include <array>
#include <atomic>

using namespace compline;
using tests::JackServer;
using tests::RealtimeGuard;
using tests::take_forbidden;

namespace {

/// A client that sends notes to itself and gives what it receives to an inbox, under guard, as
/// JACK's own thread does.
class Loop {
  public:
    Loop() : client_(::jack_client_open("loop", JackNoStartServer, nullptr)) {
        REQUIRE(client_ != nullptr);
        in_ = ::jack_port_register(client_, "in", JACK_DEFAULT_MIDI_TYPE, JackPortIsInput, 0);
        out_ = ::jack_port_register(client_, "out", JACK_DEFAULT_MIDI_TYPE, JackPortIsOutput, 0);
        ::jack_set_process_callback(client_, &Loop::process, this);
        REQUIRE(::jack_activate(client_) == 0);
        REQUIRE(::jack_connect(client_, "loop:out", "loop:in") == 0);
    }
    ~Loop() { ::jack_client_close(client_); }
    Loop(const Loop&) = delete;
    Loop& operator=(const Loop&) = delete;

    std::atomic<live::JackInbox*> inbox{nullptr};
    std::atomic<int> guarded{0};    ///< events that were taken under guard
    std::atomic<int> forbidden{0};  ///< calls that must not be

  private:
    static int process(jack_nframes_t frames, void* loop) {
        static_cast<Loop*>(loop)->run(frames);
        return 0;
    }
    void run(jack_nframes_t frames) {
        void* const out = ::jack_port_get_buffer(out_, frames);
        ::jack_midi_clear_buffer(out);
        const std::array<jack_midi_data_t, 3> note{0x90, 60, 80};
        for (jack_nframes_t at = 0; at < frames; at += 16) {
            (void)::jack_midi_event_write(out, at, note.data(), note.size());
        }
        live::JackInbox* const to = inbox.load();
        if (to == nullptr) return;
        void* const in = ::jack_port_get_buffer(in_, frames);
        (void)take_forbidden();
        {
            const RealtimeGuard guard;
            to->take(in, ::jack_last_frame_time(client_));
        }
        forbidden += take_forbidden().total();
        guarded += static_cast<int>(::jack_midi_get_event_count(in));
    }

    jack_client_t* client_;
    jack_port_t* in_ = nullptr;
    jack_port_t* out_ = nullptr;
};

}  // namespace

TEST_CASE("JACK's thread waits for nothing, also when nobody reads what comes", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    Loop loop;
    live::JackInbox inbox;
    loop.inbox = &inbox;
    for (int turn = 0; turn < 500 && loop.guarded < 1000; ++turn) ::usleep(10'000);
    loop.inbox = nullptr;
    ::usleep(50'000);  // the cycle that is under way ends
    INFO(server.log());
    CHECK(loop.guarded >= 1000);
    CHECK(loop.forbidden == 0);
    listen::Arrival first;
    listen::Arrival second;
    REQUIRE(inbox.read(first));
    REQUIRE(inbox.read(second));
    CHECK(first.message == midi::note_on(1, 60, 80));
    CHECK(second.device_frame - first.device_frame == 16);
}
