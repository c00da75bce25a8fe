#pragma once

#include <compline/practice/round_trip.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace compline::practice {

/// A click that came back.
struct ClickArrival {
    double after = 0;  ///< frames behind its click
    double size = 0;   ///< against the click as it was written
    float largest_sample = 0;
};

/// Where the clicks of a train are in a recording.
class ClickArrivals {
  public:
    ClickArrivals(const ClickTrain& train, std::span<const float> recorded);

    /// One for each click at most, in order.
    [[nodiscard]] const std::vector<ClickArrival>& all() const { return arrivals_; }
    /// What fits the click where none is, as a root mean square.
    [[nodiscard]] double noise() const { return noise_; }
    /// So large all clicks together are, on average, at the delay at which they agree best; nothing
    /// where that does not stand out of the noise. Early: as far as was listened for; late: behind.
    [[nodiscard]] std::optional<double> agreed_early() const;
    [[nodiscard]] std::optional<double> agreed_late() const;
    /// The loudest that comes back at another delay than `first`, if it is loud enough to be an
    /// echo.
    [[nodiscard]] std::optional<SecondArrival> second(double first) const;

  private:
    [[nodiscard]] std::size_t frames(time::Seconds seconds) const;
    [[nodiscard]] std::size_t listened() const { return frames(ClickTrain::listened_for); }
    [[nodiscard]] std::optional<double> agreed(std::size_t from, std::size_t to) const;
    [[nodiscard]] std::vector<double> together() const;
    [[nodiscard]] std::vector<double> as_a_rule() const;
    [[nodiscard]] std::size_t own_width() const;
    [[nodiscard]] double least_together() const;
    void find();
    void take(std::size_t click, std::size_t at);

    const ClickTrain& train_;
    std::vector<float> sound_;
    std::vector<double> values_;
    std::vector<double> together_;
    std::vector<ClickArrival> arrivals_;
    double noise_ = 0;
    double least_ = 0;
};

}  // namespace compline::practice
