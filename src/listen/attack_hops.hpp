#pragma once

#include <compline/time/units.hpp>

#include "../sound/filter.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace compline::listen {

/// A millisecond of sound, as energies (mean squares).
struct AttackHop {
    double bright = 0;    ///< above 1 kHz
    double brightest = 0;  ///< above 4 kHz, where strings fall silent first
    double low = 0;       ///< below 1 kHz: the body of a note
    double whole = 0;
    float peak = 0;  ///< largest sample of the whole sound
};

/// The last of a sound, millisecond by millisecond, and the samples of its bright part. The same
/// whatever blocks it comes in; as large as it is made.
class AttackHops {
  public:
    /// Milliseconds that are kept.
    static constexpr std::int64_t kept = 128;

    explicit AttackHops(time::SampleRate rate);

    /// Takes a sample; true when a hop became full with it.
    bool add(float sample);

    [[nodiscard]] std::int64_t frames() const { return frames_; }
    /// Hops that are full; the last `kept` of them can be asked for.
    [[nodiscard]] std::int64_t full() const { return full_; }
    [[nodiscard]] std::int64_t length() const { return length_; }
    [[nodiscard]] const AttackHop& at(std::int64_t hop) const {
        return hops_[static_cast<std::size_t>(hop % kept)];
    }
    /// Size of a sample of the bright part.
    [[nodiscard]] float bright_at(std::int64_t frame) const {
        return bright_samples_[static_cast<std::size_t>(frame) % bright_samples_.size()];
    }
    /// The largest of them, from one frame to before another; 0 for none.
    [[nodiscard]] float brightest_from(std::int64_t from, std::int64_t to) const;

  private:
    std::int64_t length_;
    sound::Filter bright_;
    sound::Filter brightest_;
    sound::Filter low_;
    sound::Filter steady_;
    std::array<AttackHop, kept> hops_{};
    std::vector<float> bright_samples_;
    AttackHop sum_;
    std::int64_t in_hop_ = 0;
    std::int64_t full_ = 0;
    std::int64_t frames_ = 0;
};

}  // namespace compline::listen
