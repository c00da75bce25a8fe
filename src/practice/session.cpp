#include <compline/practice/session.hpp>

#include <algorithm>
#include <utility>

namespace compline::practice {

using listen::Arrival;
using time::Seconds;

namespace {

/// No callback is as late while the stream runs: time that passes beyond the last block's end and
/// this is time that was lost, which the clock map sees some blocks after it.
constexpr Seconds latest_callback{0.05};

template <typename Item>
void put_behind(std::vector<Item>& all, const std::vector<Item>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

}  // namespace

void Played::append(const Played& news) {
    put_behind(messages, news.messages);
    put_behind(interruptions, news.interruptions);
    put_behind(cable, news.cable);
    put_behind(pedal, news.pedal);
}

Session::Session(time::SampleRate rate, Seconds latency)
    : rate_(rate), latency_(latency), clock_(rate) {}

void Session::start(time::Frames zero) {
    (void)advance();
    zero_ = time::time_of(zero, rate_);
    auto before = std::move(played_.messages);
    const bool is_out = !played_.cable.empty() && played_.cable.back().out;
    played_ = {};
    if (is_out) played_.cable.push_back({in_the_tune(Seconds(0)), true});
    for (auto& timed : before) {
        if (!timed.message.sets_parameter()) continue;
        timed.at = in_the_tune(Seconds(0));
        played_.messages.push_back(timed);
    }
    waiting_.clear();
    pedal_waiting_.clear();
    steps_seen_ = clock_.steps().size();
}

/// Nothing while it is not known.
std::optional<Seconds> Session::stream_time_of(const Arrival& arrival) const {
    if (!clock_.last_called()) return std::nullopt;
    switch (arrival.timing) {
        case Arrival::Timing::at_a_moment:
            return clock_.stream_time_at(arrival.moment);
        case Arrival::Timing::in_a_cycle:
            return clock_.stream_time_in_cycle(arrival.moment);
        case Arrival::Timing::at_a_device_frame:
            if (!clock_.knows(arrival.device_frame)) return std::nullopt;
            return clock_.stream_time_of(arrival.device_frame);
        case Arrival::Timing::at_a_stream_frame:
            return time::time_of(arrival.stream_frame, rate_);
    }
    return std::nullopt;
}

/// Nothing that is known by now can have been beyond what was made.
Seconds Session::as_far_as_made(Seconds stream_time) const {
    return std::min(stream_time, time::time_of(clock_.now_frame(), rate_) + latest_callback);
}

Seconds Session::in_the_tune(Seconds stream_time) const { return stream_time - latency_ - zero_; }

std::vector<midi::TimedMessage> Session::timed(
    std::deque<Arrival>& waiting, const std::vector<midi::TimedMessage>& before) const {
    std::vector<midi::TimedMessage> timed;
    std::optional<Seconds> last;
    if (!before.empty()) last = before.back().at;
    while (!waiting.empty()) {
        const auto stream_time = stream_time_of(waiting.front());
        if (!stream_time) break;
        const Seconds at = in_the_tune(as_far_as_made(*stream_time));
        last = last ? std::max(at, *last) : at;
        timed.push_back({*last, waiting.front().message});
        waiting.pop_front();
    }
    return timed;
}

std::vector<listen::CableEvent> Session::cable_events() {
    if (!clock_.last_called()) return {};
    std::vector<listen::CableEvent> events;
    Seconds last = played_.cable.empty() ? in_the_tune(Seconds(0)) : played_.cable.back().at;
    for (const auto& seen : cable_waiting_) {
        last = std::max(in_the_tune(as_far_as_made(clock_.stream_time_at(seen.moment))), last);
        events.push_back({last, seen.out});
    }
    cable_waiting_.clear();
    return events;
}

Played Session::advance() {
    Played news;
    news.messages = timed(waiting_, played_.messages);
    news.pedal = timed(pedal_waiting_, played_.pedal);
    news.cable = cable_events();
    for (; steps_seen_ < clock_.steps().size(); ++steps_seen_) {
        news.interruptions.push_back(in_the_tune(clock_.steps()[steps_seen_]));
    }
    played_.append(news);
    return news;
}

Seconds Session::now(time::Instant moment) const {
    if (!clock_.last_called()) return -zero_;
    return in_the_tune(as_far_as_made(clock_.stream_time_at(moment)));
}

}  // namespace compline::practice
