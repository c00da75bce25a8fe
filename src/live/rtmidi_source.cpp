#include "rtmidi_source.hpp"

#include "quiet_stderr.hpp"
#include "reason.hpp"
#include "rtmidi_apis.hpp"

#include <compline/live/clock.hpp>
#include <compline/live/device_choice.hpp>

#include <fmt/format.h>

#include <exception>

namespace compline::live {

namespace {

/// At 3,000 messages a second, the most that MIDI over a cable and six bending strings make, 20 s.
constexpr std::size_t most_waiting = std::size_t{1} << 16U;

}  // namespace

RtMidiSource::RtMidiSource(const MidiInput& input)
    : input_(input), in_cycles_(input.api == coarse_jack), queue_(most_waiting) {
    const QuietStderr quiet;
    try {
        midi_ = std::make_unique<RtMidiIn>(midi_apis(input.api).front(), "compline");
        midi_->setErrorCallback(&RtMidiSource::keep_complaint, this);
        // What RtMidi leaves out, its times leave out too.
        midi_->ignoreTypes(false, false, false);
        midi_->setCallback(&RtMidiSource::callback, this);
        const auto number = number_of_port();
        if (!number) throw DeviceError(fmt::format("{}:{} has gone", input.api, input.name));
        midi_->openPort(*number, "guitar");
    } catch (const std::exception& e) {  // RtMidiError is one
        throw DeviceError(
            reason(fmt::format("{}:{} cannot be opened", input.api, input.name), e.what()));
    }
}

RtMidiSource::~RtMidiSource() {
    const QuietStderr quiet;
    midi_.reset();
}

std::optional<unsigned> RtMidiSource::number_of_port() {
    const unsigned count = midi_->getPortCount();
    for (unsigned port = 0; port < count; ++port) {
        if (midi_->getPortName(port) == input_.name) return port;
    }
    return std::nullopt;
}

void RtMidiSource::callback(double delta, std::vector<unsigned char>* bytes, void* source) {
    static_cast<RtMidiSource*>(source)->take(steady_clock().now(), delta, *bytes);
}

/// What the library hands over at once is mostly one message, as it should be.
void RtMidiSource::take(time::Instant moment, double delta, std::span<const unsigned char> bytes) {
    bool timed = false;
    for (const auto byte : bytes) {
        const auto message = reader_.push(byte);
        if (!message) continue;
        put({moment, timed ? 0 : delta, message});
        timed = true;
    }
    if (!timed) put({moment, delta, std::nullopt});
    unreadable_.store(reader_.unreadable().bytes(), std::memory_order_relaxed);
}

/// The time of what finds no room is owed to what comes next: times come as differences.
void RtMidiSource::put(Raw raw) {
    raw.delta += owed_;
    owed_ = 0;
    if (queue_.try_enqueue(raw)) return;
    owed_ = raw.delta;
    if (raw.message) dropped_.fetch_add(1, std::memory_order_relaxed);
}

void RtMidiSource::keep_complaint(RtMidiError::Type, const std::string&, void*) {
    // Whether the port is there is asked by trouble(); the text would only go to stderr.
}

void RtMidiSource::read(std::vector<listen::Arrival>& into) {
    Raw raw;
    while (queue_.try_dequeue(raw)) {
        listen::Arrival arrival;
        arrival.timing =
            in_cycles_ ? listen::Arrival::Timing::in_a_cycle : listen::Arrival::Timing::at_a_moment;
        // Everything that comes moves the clock, also what is not passed on.
        arrival.moment = in_cycles_
                             ? raw.moment
                             : clock_.at(raw.moment, time::Seconds(std::max(raw.delta, 0.0)));
        if (!raw.message) continue;
        arrival.message = *raw.message;
        into.push_back(arrival);
    }
}

std::string RtMidiSource::trouble() {
    try {
        if (number_of_port()) return "";
    } catch (const std::exception&) {  // the same as no port
    }
    return fmt::format("the MIDI input {}:{} has gone", input_.api, input_.name);
}

}  // namespace compline::live
