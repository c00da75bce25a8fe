#include "channel.hpp"

#include <algorithm>
#include <cmath>

namespace compline::listen {

namespace {

using time::Seconds;

constexpr double near = 0.35;  // of a semitone
constexpr Seconds stay{0.040};
/// A bend that has rested moves in steps; the first began this long before it was sent, at most.
constexpr Seconds longest_step{0.010};

constexpr double most_semitones = 96;

}  // namespace

void BendPath::move(double semitones, Seconds at) {
    const auto before = std::lround(semitones_);
    const auto now = std::lround(semitones);
    if (now != before) {
        const double half_way = static_cast<double>(now) + (now > before ? -0.5 : 0.5);
        const Seconds from = std::max(moved_, at - longest_step);
        crossed_ = from + (at - from) * ((half_way - semitones_) / (semitones - semitones_));
        near_since_.reset();
    }
    if (std::abs(semitones - static_cast<double>(now)) > near) {
        near_since_.reset();
    } else if (!near_since_) {
        near_since_ = at;
    }
    semitones_ = semitones;
    moved_ = at;
}

std::optional<BendPath::Arrival> BendPath::arrived(Seconds at) const {
    if (!near_since_ || at - *near_since_ < stay) return std::nullopt;
    return Arrival{nearest(), crossed_};
}

int BendPath::nearest() const { return static_cast<int>(std::lround(semitones_)); }

void BendRange::control(int controller, int value) {
    constexpr int reset_all_controllers = 121;
    switch (controller) {
        case 101:
            parameter_ = (parameter_ & 0x7F) | value << 7;
            break;
        case 100:
            parameter_ = (parameter_ & ~0x7F) | value;
            break;
        case 98:
        case 99:                     // an NRPN is not ours
        case reset_all_controllers:  // RP-015: the parameter chosen is forgotten, its value stays
            parameter_ = none;
            break;
        default:
            if (parameter_ == 0) enter(controller, value);
    }
}

void BendRange::enter(int controller, int value) {
    constexpr double cent = 0.01;
    switch (controller) {
        case 6:  // data entry sets the fine part to 0 too, until that comes
            semitones_ = value;
            break;
        case 38:
            semitones_ = std::floor(semitones_) + cent * value;
            break;
        case 96:
            semitones_ = std::min(semitones_ + cent, most_semitones);
            break;
        case 97:
            semitones_ = std::max(semitones_ - cent, 0.0);
            break;
        default:
            break;
    }
}

}  // namespace compline::listen
