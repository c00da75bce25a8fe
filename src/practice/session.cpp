#include <compline/practice/session.hpp>

#include <algorithm>
#include <utility>

namespace compline::practice {

using listen::Arrival;
using time::Seconds;

Session::Session(time::SampleRate rate, Seconds latency)
    : rate_(rate), latency_(latency), clock_(rate) {}

void Session::start(time::Frames zero) {
    (void)advance();
    zero_ = time::time_of(zero, rate_);
    auto before = std::move(played_.messages);
    played_ = {};
    for (auto& timed : before) {
        if (!timed.message.sets_parameter()) continue;
        timed.at = in_the_tune(Seconds(0));
        played_.messages.push_back(timed);
    }
    waiting_.clear();
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
    }
    return std::nullopt;
}

Seconds Session::in_the_tune(Seconds stream_time) const { return stream_time - latency_ - zero_; }

Played Session::advance() {
    Played news;
    while (!waiting_.empty()) {
        const auto stream_time = stream_time_of(waiting_.front());
        if (!stream_time) break;
        Seconds at = in_the_tune(*stream_time);
        if (!played_.messages.empty()) at = std::max(at, played_.messages.back().at);
        played_.messages.push_back({at, waiting_.front().message});
        news.messages.push_back(played_.messages.back());
        waiting_.pop_front();
    }
    for (; steps_seen_ < clock_.steps().size(); ++steps_seen_) {
        played_.interruptions.push_back(in_the_tune(clock_.steps()[steps_seen_]));
        news.interruptions.push_back(played_.interruptions.back());
    }
    return news;
}

Seconds Session::now(time::Instant moment) const {
    if (!clock_.last_called()) return -zero_;
    return in_the_tune(clock_.stream_time_at(moment));
}

}  // namespace compline::practice
