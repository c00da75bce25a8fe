#pragma once

#include <cstddef>
#include <vector>

namespace compline::assess {

/// So many cases of so many.
struct Share {
    int cases = 0;
    int of = 0;

    [[nodiscard]] double rate() const { return of == 0 ? 0 : static_cast<double>(cases) / of; }
};

/// What counts say: whether what is frequent here is more than chance.
class CountTests {
  public:
    /// Up to so many changes.
    explicit CountTests(std::size_t most);

    /// How likely as many cases or more are by chance, each coming with this probability.
    [[nodiscard]] double chance_of(Share share, double probability) const;

  private:
    std::vector<double> log_factorials_;
};

/// How much better two rates explain what happened than one does, in nats; 0 where the first is
/// not the higher one.
[[nodiscard]] double nats_apart(Share here, Share elsewhere);

}  // namespace compline::assess
