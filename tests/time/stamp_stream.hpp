#pragma once

#include <compline/simulate/chance.hpp>
#include <compline/time/clock_map.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace compline::tests {

/// A simulated audio stream: the stamps that its callbacks would make, and where it truly is.
class StampStream {
  public:
    struct Set {
        int rate = 48000;
        int period = 256;
        double ppm = 0;                      ///< how much slower the device's clock runs
        std::uint32_t device_frame = 10000;  ///< its number of the stream's first frame
    };
    explicit StampStream(Set set) : set_(set) {}

    /// The next callback, woken `late`. One that is a whole period late delays those after it.
    time::Stamp next(time::Seconds late = time::Seconds(0)) {
        called_ = std::max(called_, due() + late);
        const time::Stamp stamp{time::Frames(frame_), set_.period, called_,
                                set_.device_frame,    true,        interrupted_};
        interrupted_ = false;
        frame_ += set_.period;
        set_.device_frame += static_cast<std::uint32_t>(set_.period);
        return stamp;
    }
    /// An xrun: the device goes on for so many periods, the stream stands still.
    void lose(int periods, bool flag) {
        const std::int64_t frames = std::int64_t{periods} * set_.period;
        lost_ += frames;
        set_.device_frame += static_cast<std::uint32_t>(frames);
        interrupted_ = flag;
    }
    /// The steady clock leaps, the stream does not. Back only while no callback was late.
    void leap(time::Seconds by) { start_ = start_ + by; }
    void change_period(int frames) { set_.period = frames; }

    /// Where the stream is, by all that was lost until now.
    [[nodiscard]] time::Seconds truth(time::Instant moment) const {
        return (moment - start_) * (1.0 / slowness()) - time::time_of(time::Frames(lost_), rate());
    }
    [[nodiscard]] time::Seconds now() const { return time::time_of(time::Frames(frame_), rate()); }
    [[nodiscard]] time::SampleRate rate() const { return time::SampleRate(set_.rate); }
    [[nodiscard]] time::Seconds period() const {
        return time::time_of(time::Frames(set_.period), rate());
    }
    /// When the next callback should be called.
    [[nodiscard]] time::Instant due() const {
        return start_ + time::time_of(time::Frames(frame_ + lost_), rate()) * slowness();
    }

  private:
    [[nodiscard]] double slowness() const { return 1.0 + set_.ppm * 1e-6; }

    Set set_;
    time::Instant start_{987'654'321'012'345};  // eleven days after the machine was started
    time::Instant called_;
    std::int64_t frame_ = 0;
    std::int64_t lost_ = 0;
    bool interrupted_ = false;
};

/// How late a thread wakes up: usually by some tens of microseconds, now and then by much more.
class WakeUps {
  public:
    struct Load {
        double usual_ms;       ///< mean of the usual lateness
        double rare;           ///< share of the late ones
        double worst_rare_ms;  ///< which are late by up to this
    };
    // As measured for threads in user space: jitter SD .015 to .05 ms and at most .8 idle or with
    // one busy core, SD .17 and at most 3.4 with two.
    static constexpr Load idle{0.04, 0.002, 0.8};
    static constexpr Load busy{0.1, 0.01, 3.4};

    WakeUps(Load load, std::uint64_t seed) : load_(load), chance_(seed) {}
    time::Seconds next() {
        if (chance_.uniform() < load_.rare) {
            return time::from_milliseconds(chance_.uniform() * load_.worst_rare_ms);
        }
        return time::from_milliseconds(load_.usual_ms * (exponential() + exponential()) / 2);
    }

  private:
    // The sum of two is seldom near 0, as a wake-up is seldom perfect.
    double exponential() { return -std::log(1.0 - chance_.uniform()); }

    Load load_;
    simulate::Chance chance_;
};

/// Mean, standard deviation and worst deviation from the mean of errors, in milliseconds.
class Errors {
  public:
    void add(time::Seconds error) {
        const double ms = error.milliseconds();
        ++count_;
        sum_ += ms;
        squares_ += ms * ms;
        least_ = std::min(least_, ms);
        most_ = std::max(most_, ms);
    }
    [[nodiscard]] int count() const { return count_; }
    [[nodiscard]] double mean() const { return sum_ / count_; }
    [[nodiscard]] double sd() const {
        return std::sqrt(std::max(0.0, squares_ / count_ - mean() * mean()));
    }
    [[nodiscard]] double worst() const { return std::max(most_ - mean(), mean() - least_); }
    /// Whatever the mean is: the largest error there was.
    [[nodiscard]] double largest() const { return std::max(most_, -least_); }

  private:
    int count_ = 0;
    double sum_ = 0;
    double squares_ = 0;
    double least_ = 1e300;
    double most_ = -1e300;
};

}  // namespace compline::tests
