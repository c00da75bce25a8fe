#pragma once

#include <compline/sound/cue.hpp>

#include <cstddef>
#include <vector>

namespace compline::sound {

/// Cues in the order in which they came, so many at most.
///
/// Threads: one. Real-time: yes, but for making one.
class WaitingCues {
  public:
    explicit WaitingCues(std::size_t room) : cues_(room) {}

    /// None: null.
    [[nodiscard]] const Cue* front() const noexcept {
        return count_ > 0 ? &cues_[first_] : nullptr;
    }
    /// False when there is no room.
    bool push(const Cue& cue) noexcept {
        if (count_ == cues_.size()) return false;
        cues_[place(count_++)] = cue;
        return true;
    }
    /// There is one (unchecked).
    void pop() noexcept {
        first_ = place(1);
        --count_;
    }
    void clear() noexcept { count_ = 0; }

    /// Those that begin on this frame or after it are gone.
    void drop_from(time::Frames frame) noexcept {
        std::size_t kept = 0;
        for (std::size_t i = 0; i < count_; ++i) {
            const Cue& cue = cues_[place(i)];
            if (cue.at < frame) cues_[place(kept++)] = cue;
        }
        count_ = kept;
    }

  private:
    [[nodiscard]] std::size_t place(std::size_t behind_first) const noexcept {
        return (first_ + behind_first) % cues_.size();
    }

    std::vector<Cue> cues_;
    std::size_t first_ = 0;
    std::size_t count_ = 0;
};

}  // namespace compline::sound
