#pragma once

#include "exact.hpp"

namespace compline::sound {

/// A filter of the second order: the bilinear transform of the textbook's low pass and high pass,
/// with a quality of 0.707 maximally flat.
class Filter {
  public:
    static Filter low_pass(double hz, double rate, double quality = flat) {
        const Angle at(hz, rate, quality);
        return {(1 - at.cosine) / 2, 1 - at.cosine, at};
    }
    static Filter high_pass(double hz, double rate, double quality = flat) {
        const Angle at(hz, rate, quality);
        return {(1 + at.cosine) / 2, -(1 + at.cosine), at};
    }

    double next(double sample) {
        const double out = outer_ * sample + first_;
        first_ = middle_ * sample - back_ * out + second_;
        second_ = outer_ * sample - back2_ * out;
        return out;
    }

  private:
    static constexpr double flat = 0.7071067811865476;
    struct Angle {
        double cosine;
        double width;
        Angle(double hz, double rate, double quality)
            : cosine(sound::cosine(hz / rate)), width(sine(hz / rate) / (2 * quality)) {}
    };
    Filter(double outer, double middle, const Angle& at)
        : outer_(outer / (1 + at.width)),
          middle_(middle / (1 + at.width)),
          back_(-2 * at.cosine / (1 + at.width)),
          back2_((1 - at.width) / (1 + at.width)) {}

    double outer_;  // of this sample and the one before the last
    double middle_;
    double back_;
    double back2_;
    double first_ = 0;
    double second_ = 0;
};

}  // namespace compline::sound
