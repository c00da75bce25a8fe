#include <compline/live/rig.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::live {

using time::Seconds;

namespace {

/// Longer than any wake-up was ever late here, and noticed well within a second.
constexpr Seconds longest_silence{0.5};
/// With a complaint of the library's beside it, less is enough.
constexpr Seconds suspicious_silence{0.25};
/// Some servers take their time until the first callback.
constexpr Seconds longest_beginning{3.0};
constexpr Seconds between_questions{0.25};

MidiPort open_port(const Rig::Gear& gear) {
    return gear.input ? open_input(*gear.input, gear.output.api) : MidiPort{};
}

/// A melody is played on the guitar's sounds; without one they need not be made.
sound::Bank::Guitar guitar_for(const practice::Plan& plan) {
    return plan.band.melody.empty() ? sound::Bank::Guitar::without : sound::Bank::Guitar::with;
}

int counted(std::uint64_t number) {
    return static_cast<int>(std::min<std::uint64_t>(number, practice::Machine::most));
}

std::future<sound::Bank> begin_bank(const AudioStream::Request& request,
                                    sound::Bank::Guitar guitar) {
    const auto rate = request.rate.value_or(time::SampleRate(48000));
    return std::async(std::launch::async, [rate, guitar] { return sound::Bank(rate, guitar); });
}

sound::Bank bank_for(time::SampleRate rate, std::future<sound::Bank> begun,
                     sound::Bank::Guitar guitar) {
    auto bank = begun.get();
    return bank.rate() == rate ? std::move(bank) : sound::Bank(rate, guitar);
}

}  // namespace

Rig::Rig(const Gear& gear, const chart::Form& form, const practice::Plan& plan,
         const time::Groove& groove)
    : begun_bank_(begin_bank(gear.stream, guitar_for(plan))),
      gear_(gear),
      port_(open_port(gear)),
      stream_(std::make_unique<AudioStream>(gear.output, gear.stream)),
      bank_(bank_for(stream_->rate(), std::move(begun_bank_), guitar_for(plan))),
      playback_(bank_, port_.clock),
      conductor_(form, plan, groove, stream_->rate()),
      conductor_thread_(conductor_, playback_),
      session_(stream_->rate(), stream_->latency(),
               {plan.band.route, form.chart.meter, groove.timeline.tempo()}),
      started_(live::now()) {
    stream_->start(playback_);
}

/// The stream first: its callback uses all the rest.
Rig::~Rig() { stream_.reset(); }

void Rig::start() {
    (void)listen();
    session_.start(conductor_thread_.start());
}

practice::Played Rig::listen() {
    time::Stamp stamp;
    // Messages first: one that came after the stamps were read waits for the next turn.
    arrivals_.clear();
    if (port_.source) port_.source->read(arrivals_);
    while (playback_.read(stamp)) session_.add(stamp);
    for (const auto& arrival : arrivals_) session_.add(arrival);
    return session_.advance();
}

bool Rig::is_silent_too_long(time::Instant moment) const {
    const auto last = session_.map().last_called();
    if (!last) return moment - started_ > longest_beginning;
    const Seconds periods = time::time_of(time::Frames(stream_->period()), stream_->rate()) * 4;
    const bool complained = !stream_->complaint().empty();
    return moment - *last > std::max(complained ? suspicious_silence : longest_silence, periods);
}

std::string Rig::why_silent() {
    if (port_.source) {
        if (auto gone = port_.source->trouble(); !gone.empty()) return gone;
    }
    const auto complaint = stream_->complaint();
    return fmt::format("{}:{} plays no more{}", gear_.output.api, gear_.output.name,
                       complaint.empty() ? "" : " (" + complaint + ")");
}

std::string Rig::trouble() {
    const auto moment = live::now();
    if (is_silent_too_long(moment)) return why_silent();
    if (!port_.source || moment - asked_ < between_questions) return "";
    asked_ = moment;
    return port_.source->trouble();
}

practice::Machine Rig::machine() const {
    practice::Machine machine;
    machine.output = fmt::format("{}:{}", gear_.output.api, gear_.output.name);
    if (gear_.input) machine.input = fmt::format("{}:{}", gear_.input->api, gear_.input->name);
    machine.rate_hz = stream_->rate().hz();
    machine.period_frames = stream_->period();
    machine.latency_ms = stream_->latency().milliseconds();
    machine.worst_callback_ms = playback_.worst().milliseconds();
    machine.xruns = session_.map().interruptions();
    if (port_.source) {
        machine.dropped_events = counted(port_.source->dropped());
        machine.garbled_bytes = counted(port_.source->garbled());
    }
    machine.late_strokes = static_cast<int>(conductor_thread_.missed());
    return machine;
}

}  // namespace compline::live
