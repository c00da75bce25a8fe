#include <compline/practice/conductor.hpp>

namespace compline::practice {

using time::Frames;
using time::Seconds;

Conductor::Conductor(const chart::Form& form, const BandOnStage& on_stage,
                     const time::Groove& groove, time::SampleRate rate)
    : form_(form), on_stage_(on_stage), groove_(groove), rate_(rate) {}

Seconds Conductor::lead() const {
    return groove_.timeline.time_of(time::Ticks(0)) -
           groove_.timeline.time_of(-(form_.chart.meter.bar() * on_stage_.band.count_in_bars));
}

void Conductor::start(Frames first) {
    zero_ = first + time::nearest_frame(lead(), rate_);
    first_ = first;
    writer_.emplace(form_, on_stage_.band, groove_.timeline.tempo());
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
    cues_ = band::place(*part, groove_, rate_, zero_, on_stage_.stage, first_);
    next_ = 0;
    return true;
}

void Conductor::feed(Frames now, const std::function<bool(const sound::Cue&)>& push) {
    const Seconds bar = groove_.timeline.tempo().beat() * form_.chart.meter.beats();
    const Frames ahead = time::nearest_frame(bar * bars_ahead + Seconds(0.5), rate_);
    while (!done_) {
        if (next_ == cues_.size() && !write_more()) return;
        if (cues_[next_].at > now + ahead || !push(cues_[next_])) return;
        ++next_;
    }
}

}  // namespace compline::practice
