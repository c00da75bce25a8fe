#include "kendall.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

namespace compline::history {

namespace {

constexpr double one_side = 0.025;
constexpr double one_side_in_sds = 1.959964;  // of the normal distribution
constexpr int exact_below = 40;

/// Of `these` and `others`, shuffled: the share of orders in which so many pairs have one of the
/// others first. That is the count of Mann and Whitney: the last of all is one of these, behind all
/// the others, or one of the others, and adds nothing.
std::vector<double> wrong_way_round(int these, int others) {
    const auto width = static_cast<std::size_t>(these) * static_cast<std::size_t>(others) + 1;
    // By how many of `others` there are, for as many of `these` as were added so far.
    std::vector<std::vector<double>> rows(static_cast<std::size_t>(others) + 1,
                                          std::vector<double>(width, 0));
    for (auto& row : rows) row[0] = 1;
    for (int a = 1; a <= these; ++a) {
        for (int b = 1; b <= others; ++b) {
            auto& row = rows[static_cast<std::size_t>(b)];
            const auto& fewer = rows[static_cast<std::size_t>(b) - 1];
            const double last_is_this = static_cast<double>(a) / (a + b);
            const auto most = static_cast<std::size_t>(a) * static_cast<std::size_t>(b);
            for (std::size_t count = most + 1; count-- > 0;) {
                const auto behind = static_cast<std::size_t>(b);
                const double this_last = count >= behind ? row[count - behind] : 0;
                row[count] = last_is_this * this_last + (1 - last_is_this) * fewer[count];
            }
        }
    }
    return rows.back();
}

std::vector<double> both(const std::vector<double>& one, const std::vector<double>& other) {
    std::vector<double> sum(one.size() + other.size() - 1, 0);
    for (std::size_t i = 0; i < one.size(); ++i) {
        for (std::size_t j = 0; j < other.size(); ++j) sum[i + j] += one[i] * other[j];
    }
    return sum;
}

std::optional<int> exactly(const std::vector<int>& groups) {
    const auto shares = share_of_orders(groups);
    int falling = 0;
    double so_far = shares[0];
    while (so_far <= one_side) so_far += shares[static_cast<std::size_t>(++falling)];
    if (falling == 0) return std::nullopt;
    const int pairs = static_cast<int>(shares.size()) - 1;
    return pairs - 2 * (falling - 1);
}

/// With a step of one off S, which moves in steps of two.
int by_the_normal(const std::vector<int>& groups) {
    const auto of = [](double n) { return n * (n - 1) * (2 * n + 5); };
    double variance = of(std::accumulate(groups.begin(), groups.end(), 0));
    for (const int alike : groups) variance -= of(alike);
    return static_cast<int>(std::ceil(one_side_in_sds * std::sqrt(variance / 18) + 1));
}

}  // namespace

std::vector<int> groups_alike(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    std::vector<int> groups;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const bool alike = i > 0 && values[i] - values[i - 1] < alike_within;
        if (alike) {
            ++groups.back();
        } else {
            groups.push_back(1);
        }
    }
    return groups;
}

std::vector<double> share_of_orders(const std::vector<int>& groups) {
    std::vector<double> shares = {1};
    int before = 0;
    for (const int group : groups) {
        if (before > 0) shares = both(shares, wrong_way_round(group, before));
        before += group;
    }
    return shares;
}

std::optional<int> critical_s(const std::vector<double>& values) {
    const auto groups = groups_alike(values);
    if (groups.size() < 2) return std::nullopt;
    if (values.size() < exact_below) return exactly(groups);
    return by_the_normal(groups);
}

}  // namespace compline::history
