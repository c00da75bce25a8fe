#include <compline/band/band.hpp>
#include <compline/practice/session.hpp>

#include <algorithm>
#include <utility>

namespace compline::practice {

using listen::Arrival;
using time::Seconds;

Session::Session(time::SampleRate rate, Seconds latency, roadmap::RoadMap map)
    : rate_(rate), latency_(latency), map_(std::move(map)), clock_(rate) {}

namespace {

/// Parts of a registered parameter's setting (MIDI 1.0: data entry 6 and 38, RPN 100 and 101).
bool is_setting(const midi::Message& message) {
    if (message.kind() != midi::Message::Kind::control_change) return false;
    const int controller = message.data1;
    return controller == 6 || controller == 38 || controller == 100 || controller == 101;
}

}  // namespace

void Session::start(time::Frames zero) {
    (void)advance();
    zero_ = time::time_of(zero, rate_);
    auto before = std::move(played_.messages);
    played_ = {};
    for (auto& timed : before) {
        if (!is_setting(timed.message)) continue;
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

int Session::times_begun(Seconds at) const {
    const auto place = map_.place_at(at);
    return place.before ? 0 : place.time_through;
}

int Session::times_over(Seconds at) const {
    const auto place = map_.place_at(at - afterwards);
    return place.before ? 0 : place.time_through - (place.over ? 0 : 1);
}

bool Session::finished(Seconds at) const {
    if (map_.goes_on()) return false;
    const auto last = map_.bar(map_.bars().value());
    const Seconds rings = std::max(last.lasts() * band::held_bars, crash_rings);
    const Seconds held = map_.way().held_ending ? rings : Seconds(0);
    return map_.place_at(at - afterwards - held).over;
}

}  // namespace compline::practice
