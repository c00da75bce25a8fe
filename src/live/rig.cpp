#include <compline/band/place.hpp>
#include <compline/live/rig.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
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
/// The main loop turns a hundred times a second; longer than this and it stood still.
constexpr Seconds longest_turn{0.25};

int counted(std::uint64_t number) {
    return static_cast<int>(std::min<std::uint64_t>(number, practice::Machine::most));
}

/// In the callback a sound that is missing could only be silence.
std::shared_ptr<const sound::Bank> with_sounds_for(const band::Players& players,
                                                   std::shared_ptr<const sound::Bank> bank) {
    bank->refuse_without(band::guitar_sounds_for(players));
    return bank;
}

}  // namespace

Rig::Rig(Gear gear, const roadmap::RoadMap& map, const band::Players& players,
         const band::Stage& stage, Clock& clock)
    : clock_(clock),
      ear_(std::move(gear.ear)),
      guitar_(std::move(gear.port)),
      pedal_(std::move(gear.pedal)),
      bank_(with_sounds_for(players, std::move(gear.bank))),
      playback_(*bank_, guitar_.clock(), clock, ear_.get()),
      conductor_(map, players, stage, gear.stream->rate()),
      conductor_thread_(conductor_, playback_, gear.stream->period(), clock),
      map_(map),
      round_trip_(gear.round_trip),
      session_(gear.stream->rate(), gear.round_trip.value_or(gear.stream->latency())),
      awake_since_(clock.now()),
      last_turn_(awake_since_),
      stream_(std::move(gear.stream)) {
    assert(bank_->rate() == stream_->rate());
    stream_->start(playback_);
}

void Rig::start(const std::optional<roadmap::RoadMap>& map) {
    (void)listen();
    session_.start(conductor_thread_.start(map));
    if (map) map_ = *map;
}

void Rig::follow(const roadmap::RoadMap& map, std::int64_t from_bar) {
    conductor_thread_.follow(map, from_bar);
    map_ = map;
}

/// Called as each turn begins: was there none for long? All that a turn asks of the clock counts
/// from this moment, so that a program that is stopped within a turn sees it in the next one.
time::Instant Rig::wake_up() {
    const auto moment = clock_.now();
    if (moment - last_turn_ > longest_turn) awake_since_ = moment;
    last_turn_ = moment;
    return moment;
}

practice::Played Rig::listen() {
    (void)wake_up();
    time::Stamp stamp;
    // Messages first: one that came after the stamps were read waits for the next turn.
    arrivals_.clear();
    from_pedal_.clear();
    guitar_.read(arrivals_);
    pedal_.read(from_pedal_);
    while (playback_.read(stamp)) session_.add(stamp);
    for (const auto& arrival : arrivals_) session_.add(arrival);
    for (const auto& arrival : from_pedal_) session_.add_pedal(arrival);
    const auto last_called = session_.clock().last_called();
    if (const auto news = guitar_.look(clock_.now(), last_called)) {
        session_.add_cable(news->out, news->moment);
    }
    (void)pedal_.look(clock_.now(), last_called);
    return session_.advance();
}

bool Rig::is_silent_too_long(time::Instant moment) const {
    const auto last = session_.clock().last_called();
    if (!last) return moment - awake_since_ > longest_beginning;
    const Seconds periods = time::time_of(time::Frames(stream_->period()), stream_->rate()) * 4;
    const bool complained = !stream_->complaint().empty();
    return moment - std::max(*last, awake_since_) >
           std::max(complained ? suspicious_silence : longest_silence, periods);
}

std::string Rig::why_silent() {
    if (guitar_.source() != nullptr && !guitar_.is_out()) {
        if (auto gone = guitar_.source()->trouble(); !gone.empty()) return gone;
    }
    const auto complaint = stream_->complaint();
    return fmt::format("{} plays no more{}", stream_->name(),
                       complaint.empty() ? "" : " (" + complaint + ")");
}

std::string Rig::trouble() { return is_silent_too_long(wake_up()) ? why_silent() : ""; }

practice::Machine Rig::machine() const {
    practice::Machine machine;
    machine.output = stream_->name();
    machine.input = guitar_.name();
    machine.rate_hz = stream_->rate().hz();
    machine.period_frames = stream_->period();
    machine.latency_ms = stream_->latency().milliseconds();
    if (round_trip_) machine.round_trip_ms = round_trip_->milliseconds();
    machine.worst_callback_ms = playback_.worst().milliseconds();
    machine.xruns = session_.clock().interruptions();
    if (const auto* const source = guitar_.source()) {
        machine.dropped_events = counted(source->dropped());
        machine.unreadable_bytes = counted(source->unreadable());
    }
    machine.late_strokes = static_cast<int>(conductor_thread_.missed());
    return machine;
}

}  // namespace compline::live
