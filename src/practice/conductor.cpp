#include <compline/practice/conductor.hpp>

#include <algorithm>
#include <cassert>
#include <limits>
#include <utility>

namespace compline::practice {

using time::Frames;
using time::Seconds;

namespace {

constexpr Seconds a_bit{0.5};
/// A wait is a bar too, and may last an hour. At 30 bpm a bar of five quarters takes as long.
constexpr Seconds longest_bar{10};
/// So near, a cue may be played before the other side has forgotten it. A decision counts a quarter
/// of a second after it was made at the earliest; half of that goes for the output's latency and
/// for what is laid ahead of the bar line.
constexpr Seconds too_near{0.125};

}  // namespace

Conductor::Conductor(roadmap::RoadMap map, band::Players players, const band::Stage& stage,
                     time::SampleRate rate)
    : map_(std::move(map)), players_(std::move(players)), stage_(stage), rate_(rate) {}

void Conductor::start(Frames first) {
    zero_ = first + time::nearest_frame(map_.lead(), rate_);
    first_ = first;
    now_ = first;
    writer_.emplace(map_, players_);
    writer_before_.clear();
    written_ = 0;
    cues_.clear();
    next_ = 0;
    done_ = false;
}

/// Nothing that is written from a position on begins before it.
Frames Conductor::earliest_at(time::Ticks position) const {
    return zero_ + time::nearest_frame(map_.time_of(position) - band::furthest_behind, rate_);
}

std::size_t Conductor::cues_before(Frames frame) const {
    const auto found =
        std::lower_bound(cues_.begin(), cues_.end(), frame,
                         [](const sound::Cue& cue, Frames at) { return cue.at < at; });
    return static_cast<std::size_t>(found - cues_.begin());
}

void Conductor::write() {
    writer_before_.push_back(*writer_);
    // Only what is near the beginning comes in softly; computed alike for all, a time through that
    // is over before the band is at its level included.
    cues_ = band::place(writer_->next().value(), map_, rate_, zero_, stage_, first_);
    next_ = 0;
    ++written_;
}

/// False when there is nothing more to write, or not yet.
bool Conductor::write_until(Frames end) {
    done_ = map_.times_through() == written_;
    if (done_ || (written_ > 0 && earliest_at(map_.start(written_ + 1)) > end)) return false;
    write();
    return true;
}

void Conductor::feed(Frames now, const std::function<bool(const sound::Cue&)>& push) {
    now_ = now;
    const auto here = map_.bar_at(map_.position_at(time::time_of(now - zero_, rate_)));
    const Seconds ahead = std::min(here.lasts(), longest_bar) * bars_ahead + a_bit;
    const Frames end = now + time::nearest_frame(ahead, rate_);
    // What is decided now may still change the last bar of the time through before.
    while (writer_before_.size() > 1 &&
           written_ - static_cast<int>(writer_before_.size()) + 2 < here.time_through) {
        writer_before_.pop_front();
    }
    while (!done_) {
        if (next_ == cues_.size()) {
            if (!write_until(end)) return;
            continue;  // it may be silent
        }
        if (cues_[next_].at > end || !push(cues_[next_])) return;
        ++next_;
    }
}

/// Writes it once more, by the present map.
void Conductor::go_back_to(int time_through) {
    assert(written_ - time_through < static_cast<int>(writer_before_.size()));
    for (; written_ >= time_through; --written_) {
        *writer_ = std::move(writer_before_.back());
        writer_before_.pop_back();
    }
    writer_->follow(map_);
    write();
}

Frames Conductor::follow(roadmap::RoadMap map, std::int64_t from_bar) {
    assert(!writer_ || map.lead() == map_.lead());
    map_ = std::move(map);
    const auto before = map_.bar(std::max<std::int64_t>(from_bar - 1, 1));
    const Frames from = std::max(earliest_at(from_bar == 1 ? before.start : before.end()),
                                 now_ + time::nearest_frame(too_near, rate_));
    if (!writer_) return from;
    done_ = false;
    // What the bar before is laid back by may reach behind that frame; so it begins there. Before
    // it both maps have the same cues, and what was handed over of them stays handed over.
    auto handed_over = next_;
    if (before.time_through < written_) handed_over = std::numeric_limits<std::size_t>::max();
    if (before.time_through <= written_) {
        go_back_to(before.time_through);
    } else {
        writer_->follow(map_);
    }
    next_ = std::min(handed_over, cues_before(from));
    return from;
}

}  // namespace compline::practice
