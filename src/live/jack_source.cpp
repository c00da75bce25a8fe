#include "jack_source.hpp"

#include <compline/live/clock.hpp>
#include <compline/live/device_choice.hpp>

#include <fmt/format.h>

#include <cerrno>
#include <utility>

namespace compline::live {

JackSource::JackSource(const MidiInput& input, TimedBy timed_by, std::string client)
    : input_(input), timed_by_(timed_by), name_(std::move(client)) {
    open();
    if (!connect()) {
        throw DeviceError(fmt::format("JACK:{} has gone, or cannot be connected", input_.name));
    }
}

void JackSource::open() {
    client_ = open_jack_client(name_.c_str());
    if (!client_) throw DeviceError("JACK: no JACK server is running");
    port_ = ::jack_port_register(client_.get(), "in", JACK_DEFAULT_MIDI_TYPE, JackPortIsInput, 0);
    if (port_ == nullptr) throw DeviceError("JACK: the server has no port left for us");
    ::jack_set_process_callback(client_.get(), &JackSource::process, this);
    ::jack_on_shutdown(client_.get(), &JackSource::shut_down, this);
    ::jack_set_port_registration_callback(client_.get(), &JackSource::see_port, this);
    if (::jack_activate(client_.get()) != 0) {
        throw DeviceError("JACK: the server did not let us begin");
    }
}

/// The client first: its thread uses all the rest.
JackSource::~JackSource() { client_.reset(); }

bool JackSource::connect() {
    const int result = ::jack_connect(client_.get(), input_.name.c_str(), ::jack_port_name(port_));
    return result == 0 || result == EEXIST;
}

int JackSource::process(jack_nframes_t frames, void* source) {
    auto* const self = static_cast<JackSource*>(source);
    self->inbox_.take(::jack_port_get_buffer(self->port_, frames), self->frame());
    return 0;
}

void JackSource::shut_down(void* source) {
    static_cast<JackSource*>(source)->gone_.store(true, std::memory_order_release);
}

/// A cable that is pulled and put back at once is seen by this alone.
void JackSource::see_port(jack_port_id_t port, int registered, void* source) {
    auto* const self = static_cast<JackSource*>(source);
    const auto* const named = ::jack_port_by_id(self->client_.get(), port);
    if (registered == 0 || named == nullptr || self->input_.name != ::jack_port_name(named)) return;
    self->registered_.store(true, std::memory_order_release);
}

/// The same in the process callbacks of all clients of a cycle: the server sets it as the cycle
/// begins.
std::uint32_t JackSource::frame() const noexcept { return ::jack_last_frame_time(client_.get()); }

void JackSource::read(std::vector<listen::Arrival>& into) {
    listen::Arrival arrival;
    while (inbox_.read(arrival)) {
        if (timed_by_ == TimedBy::moments) {
            arrival.timing = listen::Arrival::Timing::at_a_moment;
            arrival.moment = moment_of(arrival.device_frame);
        }
        into.push_back(arrival);
    }
}

/// JACK's clock runs with the steady one but may count from another moment.
time::Instant JackSource::moment_of(std::uint32_t frame) const {
    if (!client_) return steady_clock().now();
    const auto microseconds =
        static_cast<std::int64_t>(::jack_get_time()) -
        static_cast<std::int64_t>(::jack_frames_to_time(client_.get(), frame));
    return time::Instant(steady_clock().now().nanoseconds() - microseconds * 1000);
}

/// On another server, which is there again. Frames of the old one would mean nothing on it, but
/// with it goes the stream that they were for.
bool JackSource::open_again() {
    if (timed_by_ == TimedBy::frames) return false;
    client_.reset();
    gone_.store(false, std::memory_order_release);
    was_away_ = true;
    try {
        open();
        return true;
    } catch (const DeviceError&) {
        client_.reset();
        gone_.store(true, std::memory_order_release);
        return false;
    }
}

std::string JackSource::trouble() {
    if (gone_.load(std::memory_order_acquire) && !open_again()) return "the JACK server has gone";
    const auto* const name = input_.name.c_str();
    if (::jack_port_connected_to(port_, name) != 0) return "";
    if (::jack_port_by_name(client_.get(), name) == nullptr) {
        was_away_ = true;
        return fmt::format("the MIDI input JACK:{} has gone", input_.name);
    }
    const bool is_new = registered_.exchange(false, std::memory_order_acq_rel) || was_away_;
    if (!is_new || !connect()) {
        return fmt::format("the MIDI input JACK:{} is connected no more", input_.name);
    }
    was_away_ = false;
    return "";
}

}  // namespace compline::live
