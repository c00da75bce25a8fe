#include <compline/time/clock_map.hpp>

#include <algorithm>
#include <cassert>

namespace compline::time {

namespace {

// Window, moment and threshold as measured best over JACK under load and xruns, periods of 64 to
// 1024 frames.
constexpr Seconds window{1.0};
constexpr Seconds moment_length{0.05};
constexpr std::int64_t moment_stamps = 4;
constexpr std::int64_t threshold = 300'000;  // ns

// The first callbacks may all be late, or come at once to fill the device's buffer: a lower offset
// found meanwhile is a better guess and no step.
constexpr Seconds settling{0.2};
constexpr std::size_t settling_stamps = 4;

// A little more than the window, so that what is asked within a second finds its own stamp.
constexpr Seconds kept_length{1.25};

constexpr Seconds doubt{1.0};

/// The signed way from one wrapping counter to the other.
std::int64_t frames_from(std::uint32_t from, std::uint32_t to) {
    return static_cast<std::int32_t>(to - from);
}

}  // namespace

ClockMap::ClockMap(SampleRate rate)
    : rate_(rate),
      last_second_(nearest_frame(window, rate).count(), moment_stamps),
      last_moment_(nearest_frame(moment_length, rate).count(), moment_stamps) {}

void ClockMap::add(const Stamp& stamp) {
    assert(stamp.frames >= 1);
    assert(kept_.empty() || (stamp.first >= now_frame() && stamp.called >= *last_called()));
    const Kept kept{stamp, received_, offset_of(stamp)};
    received_ += stamp.frames;
    keep(kept);
    note_flag(stamp);
    follow_down(kept);
    last_second_.push(kept.received, kept.offset);
    last_moment_.push(kept.received, kept.offset);
    follow_up();
    settle();
}

Seconds ClockMap::stream_time_at(Instant moment) const {
    assert(!kept_.empty());
    return moment - Instant(last_second_.minimum());
}

Seconds ClockMap::stream_time_in_cycle(Instant moment) const {
    assert(!kept_.empty());
    const auto later =
        std::upper_bound(kept_.begin(), kept_.end(), moment,
                         [](Instant when, const Kept& kept) { return when < kept.stamp.called; });
    const Stamp& stamp = (later == kept_.begin() ? later : later - 1)->stamp;
    const Seconds half_a_period = time_of(Frames(stamp.frames), rate_) * 0.5;
    return start_of(stamp) + (moment - stamp.called) + half_a_period;
}

std::optional<Seconds> ClockMap::stream_time_of(std::uint32_t device_frame) const {
    const Stamp* nearest = stamp_for(device_frame);
    if (nearest == nullptr) return std::nullopt;
    const Frames into(frames_from(nearest->device_frame, device_frame));
    return time_of(nearest->first + into, rate_);
}

bool ClockMap::knows(std::uint32_t device_frame) const {
    const Stamp* latest = latest_with_device_frame();
    return latest != nullptr && frames_from(latest->device_frame, device_frame) < latest->frames;
}

bool ClockMap::uncertain(Seconds stream_time) const { return steps_.any_near(stream_time, doubt); }

std::optional<Instant> ClockMap::last_called() const {
    if (kept_.empty()) return std::nullopt;
    return kept_.back().stamp.called;
}

Frames ClockMap::now_frame() const {
    if (kept_.empty()) return Frames(0);
    const Stamp& last = kept_.back().stamp;
    return last.first + Frames(last.frames);
}

std::int64_t ClockMap::frames_in(Seconds time) const { return nearest_frame(time, rate_).count(); }

/// In whole nanoseconds, so that hours lose nothing; seconds and rest apart, as frames times 10^9
/// overflow 64 bits after seven hours at 384 kHz.
std::int64_t ClockMap::offset_of(const Stamp& stamp) const {
    constexpr std::int64_t second = 1'000'000'000;
    const std::int64_t hz = rate_.hz();
    const std::int64_t whole = stamp.first.count() / hz;
    const std::int64_t rest = stamp.first.count() % hz;
    return stamp.called.nanoseconds() - whole * second - (rest * second + hz / 2) / hz;
}

Seconds ClockMap::start_of(const Stamp& stamp) const { return time_of(stamp.first, rate_); }

/// How near to each other two steps are one: the time that the map takes to find one.
Seconds ClockMap::time_to_find(const Stamp& stamp) const {
    return std::max(moment_length, time_of(Frames(stamp.frames), rate_) * moment_stamps);
}

void ClockMap::keep(const Kept& kept) {
    kept_.push_back(kept);
    const std::int64_t oldest = kept.received - frames_in(kept_length);
    while (kept_.front().received < oldest && kept_.size() > settling_stamps) kept_.pop_front();
}

void ClockMap::note_flag(const Stamp& stamp) {
    if (stamp.interrupted) steps_.add(start_of(stamp), ClockSteps::Kind::lost, time_to_find(stamp));
}

/// A call that is early by the map: the smallest offset follows it by itself. After the settling
/// that says that the map was wrong until now.
void ClockMap::follow_down(const Kept& kept) {
    if (last_second_.empty() || kept.offset >= last_second_.minimum() - threshold) return;
    const bool was_sure = settled_ && received_ - received_at_start_ >= frames_in(settling);
    if (was_sure) {
        steps_.add(start_of(kept.stamp), ClockSteps::Kind::stepped, time_to_find(kept.stamp));
    }
    received_at_start_ = kept.received;
}

/// All calls of the last moment are late by the map: that is no lateness but lost sound.
void ClockMap::follow_up() {
    const std::int64_t known = last_second_.minimum();
    if (last_moment_.minimum() <= known + threshold) return;
    const Stamp& since = first_above(known + threshold);
    if (settled_) steps_.add(start_of(since), ClockSteps::Kind::lost, time_to_find(since));
    last_second_.shorten_to(last_moment_);
    received_at_start_ = received_;
}

void ClockMap::settle() {
    if (kept_.size() >= settling_stamps && received_ - received_at_start_ >= frames_in(settling)) {
        settled_ = true;
    }
}

/// The oldest of the latest stamps that all lie above an offset.
const Stamp& ClockMap::first_above(std::int64_t offset) const {
    auto kept = kept_.rbegin();
    while (kept + 1 != kept_.rend() && (kept + 1)->offset > offset) ++kept;
    return kept->stamp;
}

/// The latest one at or before a device frame, else the oldest; none when none has a device frame.
/// From the back, as what is asked for is new.
const Stamp* ClockMap::stamp_for(std::uint32_t device_frame) const {
    const auto at_or_before = [device_frame](const Kept& kept) {
        return kept.stamp.has_device_frame &&
               frames_from(kept.stamp.device_frame, device_frame) >= 0;
    };
    const auto nearest = std::find_if(kept_.rbegin(), kept_.rend(), at_or_before);
    if (nearest != kept_.rend()) return &nearest->stamp;
    const auto oldest = std::find_if(kept_.begin(), kept_.end(), has_device_frame);
    return oldest == kept_.end() ? nullptr : &oldest->stamp;
}

const Stamp* ClockMap::latest_with_device_frame() const {
    const auto latest = std::find_if(kept_.rbegin(), kept_.rend(), has_device_frame);
    return latest == kept_.rend() ? nullptr : &latest->stamp;
}

bool ClockMap::has_device_frame(const Kept& kept) { return kept.stamp.has_device_frame; }

}  // namespace compline::time
