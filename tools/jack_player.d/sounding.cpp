#include "sounding.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace compline::jack {

SoundingOut::SoundingOut(Sounding sounding, int rate)
    : sounding_(std::move(sounding)), rate_(rate), past_(static_cast<std::size_t>(rate)) {}

void SoundingOut::make(const float* in, std::optional<std::int64_t> first, std::uint32_t frames,
                       float* out) {
    const auto length = static_cast<std::int64_t>(sounding_.script.size());
    const auto room = past_.size();
    for (std::uint32_t i = 0; i < frames; ++i) {
        past_[next_] = in[i];
        const std::int64_t at = first ? *first + i : -1;
        out[i] = at >= 0 && at < length ? sounding_.script[static_cast<std::size_t>(at)] : 0;
        for (const auto& wire : sounding_.wires) {
            out[i] +=
                wire.gain * past_[(next_ + room - static_cast<std::size_t>(wire.frames)) % room];
        }
        const double turn = 2 * std::numbers::pi * 50 * static_cast<double>(made_++) / rate_;
        out[i] += sounding_.hum * static_cast<float>(std::sin(turn) + std::sin(3 * turn));
        next_ = (next_ + 1) % room;
    }
}

}  // namespace compline::jack
