#include <compline/practice/conductor.hpp>

#include <utility>

namespace compline::practice {

using time::Frames;
using time::Seconds;

Conductor::Conductor(roadmap::RoadMap map, band::Players players, const band::Stage& stage,
                     time::SampleRate rate)
    : map_(std::move(map)), players_(std::move(players)), stage_(stage), rate_(rate) {}

void Conductor::start(Frames first) {
    zero_ = first + time::nearest_frame(map_.lead(), rate_);
    first_ = first;
    writer_.emplace(map_, players_);
    cues_.clear();
    next_ = 0;
    done_ = false;
}

bool Conductor::write_more() {
    const auto part = writer_->next();
    done_ = !part.has_value();
    if (done_) return false;
    // Only what is near the beginning comes in softly; computed alike for all, a time through that
    // is over before the band is at its level included.
    cues_ = band::place(*part, map_, rate_, zero_, stage_, first_);
    next_ = 0;
    return true;
}

void Conductor::feed(Frames now, const std::function<bool(const sound::Cue&)>& push) {
    const auto here = map_.bar_at(map_.position_at(time::time_of(now - zero_, rate_)));
    const Frames ahead = time::nearest_frame(here.lasts() * bars_ahead + Seconds(0.5), rate_);
    while (!done_) {
        if (next_ == cues_.size() && !write_more()) return;
        if (cues_[next_].at > now + ahead || !push(cues_[next_])) return;
        ++next_;
    }
}

}  // namespace compline::practice
