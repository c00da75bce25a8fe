#include "exact.hpp"

#include <array>
#include <cmath>

namespace compline::sound {

namespace {

/// What each term of the sine's Taylor series is of the one before, the last first: a division
/// takes ten times as long as a multiplication.
constexpr std::array<double, 11> shares = [] {
    std::array<double, 11> made{};
    int k = 22;
    for (double& share : made) {
        share = 1.0 / (k * (k + 1));
        k -= 2;
    }
    return made;
}();

}  // namespace

double exponential(double x) {
    // e^x = (e^(x/2))^2, down to where a short Taylor series is exact.
    int halvings = 0;
    for (; std::fabs(x) > 0.125; x *= 0.5) ++halvings;
    double sum = 1.0;
    for (int k = 12; k >= 1; --k) sum = 1.0 + sum * x / k;
    for (; halvings > 0; --halvings) sum *= sum;
    return sum;
}

double sine(double turns) {
    double turn = turns - std::floor(turns + 0.5);  // -0.5 to 0.5
    if (turn > 0.25) turn = 0.5 - turn;
    if (turn < -0.25) turn = -0.5 - turn;
    const double x = 6.283185307179586 * turn;
    const double square = x * x;
    double sum = 1.0;
    for (const double share : shares) sum = 1.0 - square * share * sum;
    return x * sum;
}

}  // namespace compline::sound
