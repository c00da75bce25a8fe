#include "live/offline_rig.hpp"

#include "../../src/live/sound_source.hpp"

#include <compline/band/place.hpp>
#include <compline/live/device_choice.hpp>
#include <compline/practice/progress.hpp>

#include <algorithm>
#include <chrono>
#include <map>
#include <utility>

namespace compline::tests {

using time::Instant;
using time::Seconds;

namespace {

constexpr auto relaxed = std::memory_order_relaxed;

/// How far the clock may run ahead of the slowest thread: about two turns of the program's loops,
/// and less than the conductor's run-up.
constexpr Seconds leash{0.04};
/// Between two looks at what another thread does. Not a yield: on a busy machine that gives the
/// processor away for milliseconds.
constexpr std::chrono::microseconds a_nap{50};
void nap() { std::this_thread::sleep_for(a_nap); }

live::SoundInput the_wire() {
    live::SoundInput input;
    input.api = "Offline";
    input.name = "wire";
    return input;
}

constexpr std::uint32_t first_device_frame = 0xFFFF'0000;  // the counter wraps on the way

}  // namespace

void OfflineClock::wait(std::condition_variable& notified, std::unique_lock<std::mutex>& lock,
                        Seconds /*at_most*/) {
    has_done(conductor, woke_);
    // Mostly not at all: whoever wants something of the conductor shall find it at work.
    notified.wait_for(lock, ++waits_ % 16 == 0 ? a_nap : std::chrono::microseconds(0));
    woke_ = now();
}

bool OfflineClock::all_have_done(Instant until) const noexcept {
    return std::all_of(done_.begin(), done_.end(), [until](const auto& done) {
        return done.load(relaxed) >= until.nanoseconds();
    });
}

class OfflineOutput::Stream : public live::AudioStream {
  public:
    explicit Stream(OfflineOutput& output) : output_(output) {}
    ~Stream() override {
        output_.outlet_.pull();
        output_.closed_.store(true, relaxed);
    }
    [[nodiscard]] std::string name() const override { return "Offline:output"; }
    [[nodiscard]] time::SampleRate rate() const override { return output_.settings_.rate; }
    [[nodiscard]] int period() const override { return output_.settings_.period; }
    [[nodiscard]] Seconds latency() const override { return output_.settings_.latency; }
    void start(live::AudioTask& task) override {
        output_.outlet_.plug(task);
        output_.clock_.has_done(OfflineClock::main_loop, output_.clock_.now());
        if (!output_.settings_.refuses_to_start) return;
        while (output_.played_.load(relaxed) == 0) nap();
        throw live::DeviceError("Offline:output cannot be started");
    }
    [[nodiscard]] std::string complaint() const override {
        return output_.silent_.load(relaxed) ? output_.settings_.last_words : "";
    }

  private:
    OfflineOutput& output_;
};

OfflineOutput::OfflineOutput(OfflineClock& clock, Settings settings)
    : clock_(clock),
      settings_(std::move(settings)),
      device_frame_(first_device_frame),
      left_(static_cast<std::size_t>(settings_.period)),
      right_(left_.size()),
      by_wire_(left_.size()),
      thread_([this] { run(); }) {}

std::unique_ptr<live::AudioStream> OfflineOutput::stream() {
    return std::make_unique<Stream>(*this);
}

void OfflineOutput::stop() {
    ending_.store(true, relaxed);
    if (thread_.joinable()) thread_.join();
}

std::uint32_t OfflineOutput::device_frame_at(Instant moment) const {
    const auto frame = time::nearest_frame(moment - OfflineClock::start, settings_.rate);
    return first_device_frame + static_cast<std::uint32_t>(frame.count());
}

void OfflineOutput::run() {
    while (wait_for_all()) {
        lose_sound();
        be_stopped();
        clock_.move_on(std::max(clock_.now(), due() + lateness()));
        call();
        frame_ += settings_.period;
    }
}

/// False when it is to end.
bool OfflineOutput::wait_for_all() const {
    const Seconds period = time::time_of(time::Frames(settings_.period), settings_.rate);
    const auto until = std::min(clock_.now(), due() + (-std::max(leash, period)));
    while (!clock_.all_have_done(until) && !closed_.load(relaxed) && !ending_.load(relaxed)) {
        nap();
    }
    return !ending_.load(relaxed);
}

void OfflineOutput::lose_sound() {
    if (!settings_.loses_sound || frame_ < settings_.loses_sound->count()) return;
    settings_.loses_sound.reset();
    frame_ += settings_.rate.hz() / 10;
    interrupted_ = true;
}

/// As by SIGSTOP and SIGCONT: the device goes on, and nobody here sees it do so.
void OfflineOutput::be_stopped() {
    if (!settings_.is_stopped || frame_ < settings_.is_stopped->count()) return;
    settings_.is_stopped.reset();
    frame_ += std::int64_t{3} * settings_.rate.hz();
    clock_.move_on(due());
    while (!clock_.all_have_done(clock_.now()) && !closed_.load(relaxed) && !ending_.load(relaxed))
        nap();
}

void OfflineOutput::call() {
    if (settings_.falls_silent && frame_ >= settings_.falls_silent->count()) {
        silent_.store(true, relaxed);
        return;
    }
    device_frame_.store(first_device_frame + static_cast<std::uint32_t>(frame_), relaxed);
    if (!outlet_.run(
            {left_.data(), right_.data(), settings_.period, heard_by_wire(), 0, interrupted_}))
        return;
    played_.fetch_add(1, relaxed);
    interrupted_ = false;
    if (heard_.left.empty()) began_ = due();
    heard_.left.insert(heard_.left.end(), left_.begin(), left_.end());
    heard_.right.insert(heard_.right.end(), right_.begin(), right_.end());
}

const float* OfflineOutput::heard_by_wire() {
    if (!settings_.wire) return nullptr;
    const auto played = std::ssize(heard_.left);
    for (std::size_t i = 0; i < by_wire_.size(); ++i) {
        const auto at = played + static_cast<std::ptrdiff_t>(i) - *settings_.wire;
        by_wire_[i] = at < 0 ? 0.0F : heard_.left[static_cast<std::size_t>(at)];
    }
    return by_wire_.data();
}

Instant OfflineOutput::due() const {
    return OfflineClock::start + time::time_of(time::Frames(frame_), settings_.rate);
}

Seconds OfflineOutput::lateness() const {
    const auto block = frame_ / settings_.period;
    if (!settings_.wakes_up_late || block % 4 == 0) return Seconds(0);
    return Seconds(static_cast<double>(block * 7919 % 3000) * 1e-6);
}

std::vector<Sent> as_bytes(const std::vector<midi::TimedMessage>& messages) {
    std::vector<Sent> sent;
    for (const auto& [at, message] : messages) {
        sent.push_back({at, {message.status, message.data1}});
        if (message.data_bytes() == 2) sent.back().bytes.push_back(message.data2);
    }
    return sent;
}

OfflineGuitar::OfflineGuitar(OfflineOutput& output, TimedBy timed_by, std::size_t room, Who who)
    : output_(output), timed_by_(timed_by), who_(who), queue_(room) {
    begin();
}

OfflineGuitar::~OfflineGuitar() {
    end();
    delete new_script_.load(relaxed);
}

void OfflineGuitar::read(std::vector<listen::Arrival>& into) {
    listen::Arrival arrival;
    while (queue_.try_dequeue(arrival)) into.push_back(arrival);
}

std::string OfflineGuitar::trouble() {
    if (!plugged_.load(relaxed)) return "the MIDI input Offline:guitar has gone";
    if (over_.load(relaxed)) {
        end();
        begin();
    }
    return "";
}

void OfflineGuitar::play(std::vector<Sent> script, Instant zero) {
    auto given = std::make_unique<Script>(Script{std::move(script), zero});
    delete new_script_.exchange(given.release(), std::memory_order_acq_rel);
}

void OfflineGuitar::stop_playing() {
    play({}, output_.clock().now());
    while (new_script_.load(std::memory_order_acquire) != nullptr) nap();
}

void OfflineGuitar::begin() {
    ending_.store(false, relaxed);
    over_.store(false, relaxed);
    output_.clock().has_done(who_, output_.clock().now());
    thread_ = std::thread([this] { run(); });
}

void OfflineGuitar::end() {
    ending_.store(true, relaxed);
    thread_.join();
}

void OfflineGuitar::run() {
    auto& clock = output_.clock();
    // What was played before this thread came is lost.
    for (const auto now = clock.now(); script_ && script_->has_due(now);) ++script_->next;
    while (!ending_.load(relaxed) && plugged_.load(relaxed)) {
        const auto now = clock.now();
        take_script();
        play_until(now);
        clock.has_done(who_, now);
        nap();
    }
    clock.leaves(who_);
    over_.store(true, relaxed);
}

void OfflineGuitar::take_script() {
    if (new_script_.load(relaxed) == nullptr) return;
    // Seen by stop_playing() only when the old script is no longer played.
    script_.reset(new_script_.exchange(nullptr, std::memory_order_acq_rel));
}

void OfflineGuitar::play_until(Instant now) {
    for (; script_ && script_->has_due(now); ++script_->next) {
        const auto& sent = script_->sent[script_->next];
        send(sent, script_->zero + sent.at);
        sent_.store(script_->next + 1, relaxed);
    }
    unreadable_.store(reader_.unreadable().bytes(), relaxed);
}

void OfflineGuitar::send(const Sent& sent, Instant moment) {
    for (const auto byte : sent.bytes) {
        const auto message = reader_.push(byte);
        if (!message) continue;
        listen::Arrival arrival;
        arrival.message = *message;
        arrival.moment = moment;
        arrival.timing = listen::Arrival::Timing::at_a_moment;
        if (timed_by_ == TimedBy::frames) {
            arrival.timing = listen::Arrival::Timing::at_a_device_frame;
            arrival.device_frame = output_.device_frame_at(moment);
        }
        if (!queue_.try_enqueue(arrival)) dropped_.fetch_add(1, relaxed);
    }
}

OfflineEvening::OfflineEvening(const Settings& settings, const roadmap::RoadMap& map,
                               const band::Players& players, const band::Stage& stage)
    : output_(clock_, settings.output) {
    live::Gear gear;
    gear.stream = output_.stream();
    gear.bank = settings.bank ? settings.bank : bank_at(settings.output.rate, players);
    gear.round_trip = settings.round_trip;
    if (settings.guitar) {
        auto guitar = std::make_unique<OfflineGuitar>(output_, *settings.guitar, settings.room);
        guitar_ = guitar.get();
        if (*settings.guitar == OfflineGuitar::TimedBy::frames) gear.port.clock = guitar_;
        gear.port.source = std::move(guitar);
        gear.port.name = "Offline:guitar";
    }
    if (settings.output.wire) {
        gear.ear = std::make_unique<live::SoundEar>(settings.output.rate);
        if (!settings.guitar) gear.port = live::sound_port(the_wire(), *gear.ear);
    }
    if (settings.pedal) {
        auto pedal = std::make_unique<OfflineGuitar>(output_, OfflineGuitar::TimedBy::moments,
                                                     settings.room, OfflineGuitar::Who::foot);
        pedal_ = pedal.get();
        gear.pedal.source = std::move(pedal);
        gear.pedal.name = "Offline:pedal";
    }
    rig_ = std::make_unique<live::Rig>(std::move(gear), map, players, stage, clock_);
}

Instant OfflineEvening::start(const std::vector<Sent>& script, const std::vector<Sent>& pedal) {
    for (auto* const one : {guitar_, pedal_}) {
        if (one != nullptr) one->stop_playing();
    }
    rig_->start();
    news_ = rig_->session().played().messages;
    while (!rig_->session().clock().settled() && turn()) continue;
    const auto present = now();
    const auto zero = present + (-rig_->session().now(present));
    if (guitar_ != nullptr) guitar_->play(script, zero);
    if (pedal_ != nullptr) pedal_->play(pedal, zero);
    return zero;
}

bool OfflineEvening::turn() {
    const auto began = now();
    just_heard_ = rig_->listen();
    news_.insert(news_.end(), just_heard_.messages.begin(), just_heard_.messages.end());
    clock_.has_done(OfflineClock::main_loop, began);
    nap();
    trouble_ = rig_->trouble();
    return trouble_.empty() && !practice::is_finished((*rig_).map(), rig_->now());
}

void OfflineEvening::go_on_until(Seconds at) {
    while (rig_->now() < at && turn()) continue;
}

void OfflineEvening::end() {
    stand_still();
    rig_.reset();
    guitar_ = nullptr;
    pedal_ = nullptr;
    output_.stop();
}

std::shared_ptr<const sound::Bank> bank_at(time::SampleRate rate, const band::Players& players) {
    static std::map<std::pair<int, bool>, std::shared_ptr<const sound::Bank>> banks;
    const auto guitar = band::guitar_sounds_for(players);
    auto& bank = banks[{rate.hz(), guitar == sound::Bank::Guitar::with}];
    if (!bank) bank = std::make_shared<const sound::Bank>(rate, guitar);
    return bank;
}

}  // namespace compline::tests
