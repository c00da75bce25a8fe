#include "measurement.hpp"

#include <algorithm>
#include <cassert>
#include <chrono>

namespace compline::bench {

namespace {

constexpr std::size_t most_runs = 1000;

double seconds_of(const std::function<void()>& work) {
    const auto began = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
}

}  // namespace

Measurement::Measurement(std::vector<double> seconds) : seconds_(std::move(seconds)) {
    assert(!seconds_.empty());
    std::sort(seconds_.begin(), seconds_.end());
}

time::Seconds Measurement::median() const {
    const std::size_t half = seconds_.size() / 2;
    const bool odd = seconds_.size() % 2 == 1;
    return time::Seconds(odd ? seconds_[half] : (seconds_[half - 1] + seconds_[half]) / 2);
}

Measurement measure(Pace pace, const std::function<void()>& work) {
    const bool quick = pace == Pace::quick;
    const double enough_seconds = quick ? 0.05 : 0.5;
    const std::size_t fewest_runs = quick ? 3 : 5;
    work();
    std::vector<double> seconds;
    double sum = 0;
    while (seconds.size() < fewest_runs || (sum < enough_seconds && seconds.size() < most_runs)) {
        seconds.push_back(seconds_of(work));
        sum += seconds.back();
    }
    return Measurement(std::move(seconds));
}

}  // namespace compline::bench
