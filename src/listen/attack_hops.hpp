#pragma once

#include "../sound/filter.hpp"

#include <compline/time/units.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace compline::listen {

/// A millisecond of sound, as energies (mean squares).
struct AttackHop {
    double bright = 0;     ///< above 1.5 kHz
    double brightest = 0;  ///< above 7 kHz, where strings fall silent first
    double low = 0;        ///< below 700 Hz: the body of a note
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
    /// Sizes of the samples of one of the two bright parts.
    enum class Bright { all, highest };
    [[nodiscard]] float size_at(Bright part, std::int64_t frame) const {
        const auto& sizes = part == Bright::all ? bright_sizes_ : brightest_sizes_;
        return sizes[static_cast<std::size_t>(frame) % sizes.size()];
    }
    /// The largest of them, from one frame to before another; 0 for none.
    [[nodiscard]] float largest_size(Bright part, std::int64_t from, std::int64_t to) const;

  private:
    std::int64_t length_;
    sound::Filter bright_;
    sound::Filter brightest_;
    sound::Filter low_;
    sound::Filter steady_;
    std::array<AttackHop, kept> hops_{};
    std::vector<float> bright_sizes_;
    std::vector<float> brightest_sizes_;
    AttackHop sum_;
    std::int64_t in_hop_ = 0;
    std::int64_t full_ = 0;
    std::int64_t frames_ = 0;
};

}  // namespace compline::listen
