#include "lost_note_offs.hpp"

#include "together.hpp"

#include <algorithm>
#include <cstddef>
#include <deque>
#include <optional>

namespace compline::listen {

namespace {

using time::Seconds;

/// A string may go on alone after its chord was let go, and nobody knows yet when it will end.
constexpr Seconds may_still_ring{2.0};
constexpr Seconds longest_alone{5.0};

/// When notes end that were struck beside a note. Notes are asked for in order, so that each is
/// looked at once, however many begin together.
class Companions {
  public:
    explicit Companions(const std::vector<ReportedNote>& reported) : reported_(reported) {}

    /// The latest end of those that were ended.
    std::optional<Seconds> latest_end(std::size_t i) {
        const Seconds on = reported_[i].note.on;
        for (; next_ < reported_.size() && reported_[next_].note.on - on <= together; ++next_) {
            if (reported_[next_].ended) add(next_);
        }
        while (!falling_.empty() && on - reported_[falling_.front()].note.on > together) {
            falling_.pop_front();
        }
        if (falling_.empty()) return std::nullopt;
        return reported_[falling_.front()].note.off;
    }

  private:
    void add(std::size_t k) {
        while (!falling_.empty() && reported_[falling_.back()].note.off <= reported_[k].note.off) {
            falling_.pop_back();
        }
        falling_.push_back(k);
    }

    const std::vector<ReportedNote>& reported_;
    std::size_t next_ = 0;
    std::deque<std::size_t> falling_;  ///< those that none struck later outlasts
};

/// When the next chord comes after a note. Notes are asked for in order.
class NextChord {
  public:
    explicit NextChord(const std::vector<ReportedNote>& reported) : reported_(reported) {}

    std::optional<Seconds> after(std::size_t i) {
        const Seconds on = reported_[i].note.on;
        while (chord_ + 1 < reported_.size() &&
               !(reported_[chord_].note.on - on > together && begins())) {
            ++chord_;
        }
        if (chord_ + 1 >= reported_.size()) return std::nullopt;
        const Seconds next = reported_[chord_].note.on;
        if (next - on > longest_alone) return std::nullopt;
        return next;
    }

  private:
    [[nodiscard]] bool begins() const {
        return reported_[chord_ + 1].note.on - reported_[chord_].note.on <= together;
    }

    const std::vector<ReportedNote>& reported_;
    std::size_t chord_ = 0;
};

}  // namespace

int end_the_unended(std::vector<ReportedNote>& reported, Seconds end) {
    Companions companions(reported);
    NextChord chord(reported);
    // When a note that was not ended must have ended.
    const auto latest_end = [&](std::size_t i) -> std::optional<Seconds> {
        if (const auto with_it = companions.latest_end(i)) return with_it;
        if (const auto next = chord.after(i)) return next;
        const bool is_last = i + 1 == reported.size();
        if (is_last) return std::nullopt;
        return reported[i].note.on + longest_alone;
    };
    int unended = 0;
    for (std::size_t i = 0; i < reported.size(); ++i) {
        auto& [note, ended] = reported[i];
        if (ended) continue;
        const auto latest = latest_end(i);
        const bool may_ring = note.off == end && latest && end - *latest < may_still_ring;
        if (!latest || note.off <= *latest || may_ring) continue;
        note.off = std::max(*latest, note.on);
        ++unended;
    }
    return unended;
}

}  // namespace compline::listen
