#include "jack_player.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <jack/midiport.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <thread>
#include <utility>

namespace compline::jack {

namespace {

std::string reason(jack_status_t status) {
    if ((status & JackNameNotUnique) != 0) return "there is a client of that name already";
    if ((status & JackServerFailed) != 0) return "no JACK server is running under that name";
    return fmt::format("JACK's status is {:#x}", static_cast<unsigned>(status));
}

jack_client_t* open_client(const PlayerOptions& options) {
    constexpr unsigned flags = JackNoStartServer | JackUseExactName;
    jack_status_t status{};
    jack_client_t* client =
        options.server.empty()
            ? ::jack_client_open(options.name.c_str(), jack_options_t(flags), &status)
            : ::jack_client_open(options.name.c_str(), jack_options_t(flags | JackServerName),
                                 &status, options.server.c_str());
    if (client != nullptr) return client;
    throw JackError(
        fmt::format("could not open the JACK client '{}': {}", options.name, reason(status)));
}

time::SampleRate rate_of(jack_client_t* client) {
    return time::SampleRate(static_cast<int>(::jack_get_sample_rate(client)));
}

std::vector<ScriptedMessage> in_order(std::vector<ScriptedMessage> script) {
    std::stable_sort(script.begin(), script.end(),
                     [](const auto& a, const auto& b) { return a.frame < b.frame; });
    return script;
}

std::size_t frames_of(time::Seconds length, time::SampleRate rate) {
    return static_cast<std::size_t>(std::max<std::int64_t>(nearest_frame(length, rate).count(), 0));
}

bool write(void* buffer, std::int64_t offset, const midi::Message& message) {
    const std::array<jack_midi_data_t, 3> bytes{message.status, message.data1, message.data2};
    const std::size_t size = 1 + static_cast<std::size_t>(message.data_bytes());
    return ::jack_midi_event_write(buffer, static_cast<jack_nframes_t>(offset), bytes.data(),
                                   size) == 0;
}

/// One writer each, so no read-modify-write is needed.
void count_one(std::atomic<std::size_t>& counter) {
    counter.store(counter.load(std::memory_order_relaxed) + 1, std::memory_order_release);
}

}  // namespace

JackPlayer::JackPlayer(const PlayerOptions& options)
    : client_(open_client(options)),
      name_(::jack_get_client_name(client_.get())),
      rate_(rate_of(client_.get())),
      recording_(options.threshold, frames_of(options.room, rate_)) {
    if (options.sounding) sounding_.emplace(*options.sounding, rate_.hz());
    open_ports();
    set_callbacks();
}

JackPlayer::~JackPlayer() { disappear(); }

/// The audio thread uses all the rest, and the client's pointer too: it goes first.
void JackPlayer::disappear() {
    if (client_ == nullptr) return;
    ::jack_deactivate(client_.get());
    client_.reset();
}

void JackPlayer::open_ports() {
    const auto open = [this](const char* name, const char* type, unsigned long direction) {
        jack_port_t* port = ::jack_port_register(client(), name, type, direction, 0);
        if (port == nullptr)
            throw JackError(fmt::format("{}: no port '{}' to be had", name_, name));
        return port;
    };
    left_ = open("in_1", JACK_DEFAULT_AUDIO_TYPE, JackPortIsInput);
    right_ = open("in_2", JACK_DEFAULT_AUDIO_TYPE, JackPortIsInput);
    strings_ = open("strings", JACK_DEFAULT_MIDI_TYPE, JackPortIsOutput);
    if (sounding_) sound_ = open("sound", JACK_DEFAULT_AUDIO_TYPE, JackPortIsOutput);
}

void JackPlayer::set_callbacks() {
    ::jack_set_process_callback(client(), process, this);
    const auto on_xrun = [](void* player) {
        ++static_cast<JackPlayer*>(player)->xruns_;
        return 0;
    };
    ::jack_set_xrun_callback(client(), on_xrun, this);
    ::jack_on_shutdown(
        client(), [](void* player) { static_cast<JackPlayer*>(player)->gone_ = true; }, this);
}

void JackPlayer::start(std::vector<ScriptedMessage> script) {
    script_ = in_order(std::move(script));
    sent_frames_.resize(script_.size());
    if (::jack_activate(client()) != 0) {
        throw JackError(fmt::format("{}: the JACK server does not let it start", name_));
    }
}

void JackPlayer::disconnect_strings() { ::jack_port_disconnect(client(), strings_); }

// --- In the audio thread: no allocation, no lock, nothing thrown -------------------------------

int JackPlayer::process(jack_nframes_t frames, void* player) {
    static_cast<JackPlayer*>(player)->run_cycle(frames);
    return 0;
}

void JackPlayer::run_cycle(jack_nframes_t frames) {
    watch_clock(frames);
    void* midi = ::jack_port_get_buffer(strings_, frames);
    ::jack_midi_clear_buffer(midi);
    const auto* left = static_cast<const float*>(::jack_port_get_buffer(left_, frames));
    const auto first = recording_.add(
        left, static_cast<const float*>(::jack_port_get_buffer(right_, frames)), frames);
    if (first) send_due(*first, frames, midi);
    if (sounding_) {
        sounding_->make(left, first, frames,
                        static_cast<float*>(::jack_port_get_buffer(sound_, frames)));
    }
}

void JackPlayer::send_due(std::int64_t first, jack_nframes_t frames, void* buffer) {
    for (; next_ < script_.size() && script_[next_].frame < first + frames; ++next_) {
        const ScriptedMessage& due = script_[next_];
        if (due.frame < first) {
            count_one(late_);
        } else if (write(buffer, due.frame - first, due.message)) {
            sent_frames_[sent_.load(std::memory_order_relaxed)] = due.frame;
            count_one(sent_);
        } else {
            count_one(unfit_);
        }
    }
}

void JackPlayer::watch_clock(jack_nframes_t frames) {
    const jack_nframes_t now = ::jack_last_frame_time(client_.get());
    if (cycled_ && now != expected_) ++jumps_;
    cycled_ = true;
    expected_ = now + frames;  // wraps around, as the server's count does
}

// --- In the threads of who uses the player -----------------------------------------------------

jack_client_t* JackPlayer::client() const {
    if (client_ == nullptr) throw JackError(fmt::format("{} has left its JACK server", name_));
    return client_.get();
}

std::string JackPlayer::port_name(jack_port_t* port) const { return ::jack_port_name(port); }

bool JackPlayer::connect_strings_to(const std::string& part) {
    const auto found = choose(ports(client(), JACK_DEFAULT_MIDI_TYPE, JackPortIsInput), part);
    if (found.empty()) return false;
    if (found.size() > 1) {
        throw JackError(
            fmt::format("several MIDI inputs match '{}': {}", part, fmt::join(found, ", ")));
    }
    connect(client(), port_name(strings_), found.front());
    return true;
}

bool JackPlayer::connect_inputs_from(const std::string& part) {
    const auto found = choose(ports(client(), JACK_DEFAULT_AUDIO_TYPE, JackPortIsOutput), part);
    if (found.empty()) return false;
    connect(client(), found.front(), port_name(left_));
    connect(client(), found[found.size() > 1 ? 1 : 0], port_name(right_));
    return true;
}

/// Asks again and again: the audio thread must not signal.
bool JackPlayer::wait(time::Seconds longest, const std::function<bool()>& condition) const {
    using Clock = std::chrono::steady_clock;
    const auto deadline = Clock::now() + std::chrono::duration<double>(longest.count());
    while (!condition()) {
        if (server_gone() || Clock::now() > deadline) return false;
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    return true;
}

bool JackPlayer::wait_for_click(time::Seconds longest) const {
    return wait(longest, [this] { return clicked(); });
}

bool JackPlayer::wait_until_sent(time::Seconds longest) const {
    return wait(longest, [this] { return all_sent(); });
}

bool JackPlayer::wait_until_recorded(time::Seconds length, time::Seconds longest) const {
    const std::size_t enough = std::min(frames_of(length, rate_), recording_.capacity());
    return wait(longest, [this, enough] { return recorded() >= enough; });
}

std::vector<std::int64_t> JackPlayer::sent_frames() const {
    return {sent_frames_.begin(), sent_frames_.begin() + static_cast<std::ptrdiff_t>(sent())};
}

std::uint32_t JackPlayer::period() const { return ::jack_get_buffer_size(client()); }

void JackPlayer::set_buffer_size(std::uint32_t frames) {
    if (::jack_set_buffer_size(client(), frames) != 0) {
        throw JackError(fmt::format("the JACK server refuses periods of {} frames", frames));
    }
}

}  // namespace compline::jack
