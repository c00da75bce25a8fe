#include "rtmidi_source.hpp"

#include "quiet_stderr.hpp"
#include "reason.hpp"
#include "rtmidi_apis.hpp"
#include "same_port.hpp"

#include <compline/live/clock.hpp>
#include <compline/live/device_choice.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <utility>

namespace compline::live {

namespace {

/// At 3,000 messages a second, the most that MIDI over a cable and six bending strings make, 20 s.
constexpr std::size_t most_messages = std::size_t{1} << 16U;

std::vector<std::string> names_of(RtMidiIn& midi) {
    std::vector<std::string> names;
    const unsigned count = midi.getPortCount();
    for (unsigned port = 0; port < count; ++port) names.push_back(midi.getPortName(port));
    return names;
}

}  // namespace

RtMidiSource::RtMidiSource(const MidiInput& input, std::string port)
    : input_(input),
      port_(std::move(port)),
      in_cycles_(input.api == coarse_jack),
      queue_(most_messages) {
    const QuietStderr quiet;
    try {
        look_around();
        open(input.name);
    } catch (const std::exception& e) {  // RtMidiError is one
        throw DeviceError(
            reason(fmt::format("{}:{} cannot be opened", input.api, input.name), e.what()));
    }
}

RtMidiSource::~RtMidiSource() {
    const QuietStderr quiet;
    midi_.reset();
}

void RtMidiSource::look_around() {
    midi_ = std::make_unique<RtMidiIn>(midi_apis(input_.api).front(), "compline");
    midi_->setErrorCallback(&RtMidiSource::keep_complaint, this);
    // What RtMidi leaves out, its times leave out too.
    midi_->ignoreTypes(false, false, false);
    midi_->setCallback(&RtMidiSource::callback, this);
}

void RtMidiSource::open(const std::string& name) {
    const auto names = names_of(*midi_);
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end()) throw DeviceError(fmt::format("{}:{} has gone", input_.api, name));
    midi_->openPort(static_cast<unsigned>(found - names.begin()), port_);
    opened_ = name;
}

/// Times come as differences: what came before and after have nothing to do with one another.
void RtMidiSource::open_again(const std::string& name) {
    const QuietStderr quiet;
    midi_.reset();
    hand_over(before_);
    clock_ = time::DeltaClock();
    owed_ = 0;
    look_around();
    open(name);
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
    into.insert(into.end(), before_.begin(), before_.end());
    before_.clear();
    hand_over(into);
}

void RtMidiSource::hand_over(std::vector<listen::Arrival>& into) {
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
        if (!midi_) look_around();
        const auto there = names_of(*midi_);
        const bool is_there = std::find(there.begin(), there.end(), opened_) != there.end();
        if (!away_ && is_there) return "";
        if (!away_) others_ = there;
        away_ = true;
        if (const auto name = same_port(opened_, there, others_)) {
            open_again(*name);
            away_ = false;
            return "";
        }
    } catch (const std::exception&) {  // the same as no port
        away_ = true;
    }
    return fmt::format("the MIDI input {}:{} has gone", input_.api, input_.name);
}

}  // namespace compline::live
