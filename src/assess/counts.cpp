#include "counts.hpp"

#include <algorithm>
#include <cmath>

namespace compline::assess {

namespace {

/// What is likely to come out as it did, at that rate.
double log_likelihood(Share share, double rate) {
    double nats = 0;
    if (share.cases > 0) nats += share.cases * std::log(rate);
    if (share.cases < share.of) nats += (share.of - share.cases) * std::log(1 - rate);
    return nats;
}

}  // namespace

CountTests::CountTests(std::size_t most) : log_factorials_{0} {
    // A table: std::lgamma keeps a sign that threads share.
    for (std::size_t n = 1; n <= most; ++n) {
        log_factorials_.push_back(log_factorials_.back() + std::log(static_cast<double>(n)));
    }
}

double CountTests::chance_of(Share share, double probability) const {
    if (share.cases <= 0 || probability >= 1) return 1;
    if (probability <= 0) return 0;
    const auto log_factorial = [&](int n) { return log_factorials_[static_cast<std::size_t>(n)]; };
    double sum = 0;
    for (int k = share.cases; k <= share.of; ++k) {
        const double ways =
            log_factorial(share.of) - log_factorial(k) - log_factorial(share.of - k);
        sum +=
            std::exp(ways + k * std::log(probability) + (share.of - k) * std::log(1 - probability));
    }
    return std::min(1.0, sum);
}

double nats_apart(Share here, Share elsewhere) {
    if (here.rate() <= elsewhere.rate()) return 0;
    const Share all{here.cases + elsewhere.cases, here.of + elsewhere.of};
    return log_likelihood(here, here.rate()) + log_likelihood(elsewhere, elsewhere.rate()) -
           log_likelihood(all, all.rate());
}

}  // namespace compline::assess
