// Whether it got better: dates, slopes and how sure they are. Kendall's distribution is checked
// against all orders, one by one, and against figures of published tables, from memory.

#include "../../src/history/kendall.hpp"
#include "support/catch.hpp"

#include <compline/history/trend.hpp>
#include <compline/simulate/chance.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace compline;
using namespace compline::history;

namespace {

std::vector<TrendPoint> evenings(const std::vector<double>& values) {
    std::vector<TrendPoint> points;
    for (const double value : values) points.push_back({static_cast<double>(points.size()), value});
    return points;
}

int s_of(const std::vector<int>& values) {
    int s = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        for (std::size_t j = i + 1; j < values.size(); ++j)
            s += (values[j] > values[i]) - (values[j] < values[i]);
    }
    return s;
}

/// Of all orders of these values, each different one once, how many reach S or pass it.
double chance_of(std::vector<int> values, int s) {
    std::sort(values.begin(), values.end());
    int all = 0;
    int reached = 0;
    do {
        ++all;
        reached += s_of(values) >= s ? 1 : 0;
    } while (std::next_permutation(values.begin(), values.end()));
    return static_cast<double>(reached) / all;
}

/// ... as the program has it.
double chance_computed(const std::vector<int>& groups, int s) {
    const auto shares = share_of_orders(groups);
    const int pairs = static_cast<int>(shares.size()) - 1;
    double sum = 0;
    for (int falling = 0; falling <= pairs; ++falling) {
        if (pairs - 2 * falling >= s) sum += shares[static_cast<std::size_t>(falling)];
    }
    return sum;
}

std::vector<double> rising(int n) {
    std::vector<double> values(static_cast<std::size_t>(n));
    std::iota(values.begin(), values.end(), 1);
    return values;
}

}  // namespace

TEST_CASE("the days of dates are counted one by one through leap years", "[history]") {
    CHECK(days_of("1970-01-01") == 0);
    CHECK(days_of("1969-12-31") == -1);
    int days = 0;
    for (int year = 1970; year <= 2105; ++year) {
        const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
        CHECK(days_of(std::to_string(year) + "-03-01") == days + (leap ? 60 : 59));
        CHECK(date_of(days) == std::to_string(year) + "-01-01");
        days += leap ? 366 : 365;
    }
    CHECK(date_of(days_of("2024-02-29").value() + 1) == "2024-03-01");
}

TEST_CASE("what is no date has no day", "[history]") {
    for (const auto* const text : {"", "2026-11", "2026-13-01", "2026-02-29", "2026-11-31",
                                   "26-11-2003", "2026-11-03T19:30", "2026 11 03", "2026-11-+3"})
        CHECK(!days_of(text));
}

TEST_CASE("how often chance makes evenings rise is counted over all orders of them", "[history]") {
    const std::vector<std::vector<int>> cases = {
        {1, 2, 3, 4, 5, 6}, {1, 2, 3, 4, 5, 6, 7}, {1, 1, 2, 3, 4, 5}, {1, 2, 2, 2, 3, 4, 4},
        {1, 1, 1, 2, 2, 2}, {1, 1, 1, 1, 1, 2, 2}, {1, 1, 1, 1, 1, 2}};
    for (const auto& values : cases) {
        const std::vector<double> shares(values.begin(), values.end());
        const auto groups = groups_alike(shares);
        for (int s = -21; s <= 21; ++s)
            CHECK(chance_computed(groups, s) == Approx(chance_of(values, s)).margin(1e-12));
        const auto critical = critical_s(shares);
        if (!critical) {
            CHECK(chance_of(values, 15) == 0);
            continue;
        }
        CHECK(chance_of(values, *critical) <= 0.025);
        CHECK(chance_of(values, *critical - 2) > 0.025);
    }
    CHECK(!critical_s({1, 1, 1, 1, 1, 2}));
    CHECK(!critical_s({1, 1, 1, 1, 1, 1}));
}

TEST_CASE("how often chance makes evenings rise agrees with the published table", "[history]") {
    // Upper tails of Kendall's S, as in Kendall 1970, table 1, and Hollander and Wolfe 1999, table
    // A.30; from memory.
    const auto tail = [](int n, int s) {
        return chance_computed(std::vector<int>(static_cast<std::size_t>(n), 1), s);
    };
    CHECK(tail(4, 6) == Approx(0.042).margin(0.0005));
    CHECK(tail(5, 8) == Approx(0.042).margin(0.0005));
    CHECK(tail(6, 11) == Approx(0.028).margin(0.0005));
    CHECK(tail(6, 13) == Approx(0.0083).margin(0.00005));
    CHECK(tail(8, 16) == Approx(0.031).margin(0.0005));
    CHECK(tail(8, 18) == Approx(0.016).margin(0.0005));
    CHECK(tail(10, 21) == Approx(0.036).margin(0.0005));
    CHECK(tail(10, 23) == Approx(0.023).margin(0.0005));
}

TEST_CASE("at forty evenings the exact count and the normal one meet", "[history]") {
    const int exact = critical_s(rising(39)).value();
    const int normal = critical_s(rising(40)).value();
    // As n^1.5: a step of 4 % or so.
    CHECK(normal >= exact);
    CHECK(normal <= exact * 1.06);
    auto alike = rising(44);
    std::fill(alike.begin(), alike.begin() + 22, 1.0);
    CHECK(critical_s(alike).value() < critical_s(rising(44)).value());
}

TEST_CASE("the slope and its interval are those of a worked example", "[history]") {
    // The data of Sen 1968, as they stand in textbooks (from memory); their 21 slopes were sorted
    // by hand: the median is 4, the fourth from either end 26/7 and 35/8. Of 7 values S is critical
    // from 15 on.
    const std::vector<TrendPoint> points = {{1, 9},   {2, 15},  {3, 19}, {4, 20},
                                            {10, 45}, {12, 55}, {18, 78}};
    const auto trend = trend_of(points);
    CHECK(trend.slope == Approx(4));
    CHECK(trend.least == Approx(26.0 / 7));
    CHECK(trend.most == Approx(35.0 / 8));
    CHECK(trend.course == Course::better);
    CHECK(trend.last - trend.first == Approx(4 * 17));
}

TEST_CASE("under six evenings there are too few to tell, and from six on it is said", "[history]") {
    const auto five = trend_of(evenings({0.1, 0.3, 0.5, 0.7, 0.9}));
    CHECK(five.course == Course::too_few);
    CHECK(five.evenings == 5);
    CHECK(trend_of(evenings({0.1, 0.3, 0.5, 0.7, 0.9, 0.95})).course == Course::better);
    CHECK(trend_of(evenings({0.95, 0.9, 0.7, 0.5, 0.3, 0.1})).course == Course::worse);
    CHECK(trend_of({}).course == Course::too_few);
}

TEST_CASE("one bad evening does not undo a trend nor move its line", "[history]") {
    const auto trend = trend_of(evenings({0.50, 0.53, 0.56, 0.59, 0.10, 0.65, 0.68, 0.71, 0.74}));
    CHECK(trend.course == Course::better);
    CHECK(trend.slope == Approx(0.03));
    CHECK(trend.first == Approx(0.50));
    CHECK(trend.last == Approx(0.74));
}

TEST_CASE("evenings that are all alike show no change", "[history]") {
    const auto alike = trend_of(evenings(std::vector<double>(12, 0.8)));
    CHECK(alike.course == Course::none);
    CHECK(alike.slope == 0);
    // A hair's breadth of reckoning is no difference.
    std::vector<double> hair(12, 0.8);
    for (std::size_t i = 0; i < hair.size(); ++i) hair[i] += 1e-13 * static_cast<double>(i);
    CHECK(trend_of(evenings(hair)).course == Course::none);
}

TEST_CASE("days without playing count: the slope is one a day", "[history]") {
    std::vector<TrendPoint> points;
    for (const double day : {0.0, 1.0, 7.0, 8.0, 20.0, 35.0, 36.0})
        points.push_back({20000 + day, 0.4 + 0.01 * day});
    CHECK(trend_of(points).slope == Approx(0.01));
    CHECK(trend_of(points).first == Approx(0.4));
}

TEST_CASE("where nothing changes a trend is seen in one of twenty or fewer", "[history]") {
    simulate::Chance chance(26);
    for (const int n : {6, 8, 12, 25, 60}) {
        constexpr int runs = 400;
        int seen = 0;
        for (int run = 0; run < runs; ++run) {
            std::vector<double> values;
            for (int i = 0; i < n; ++i) {
                const double noise = std::round(chance.scatter() * 12);
                values.push_back(noise / 12);
            }
            seen += trend_of(evenings(values)).course == Course::none ? 0 : 1;
        }
        // Three standard deviations of a count of 400 above 5 %.
        INFO(n << " evenings: " << seen << " of " << runs);
        CHECK(seen <= 33);
    }
}

TEST_CASE("years of evenings are looked at by neighbours taken together", "[history]") {
    std::vector<double> values;
    simulate::Chance chance(7);
    for (int i = 0; i < 700; ++i) values.push_back(0.5 + 0.0002 * i + 0.05 * chance.scatter());
    const auto trend = trend_of(evenings(values));
    CHECK(trend.evenings == 700);
    CHECK(trend.course == Course::better);
    CHECK(trend.slope == Approx(0.0002).epsilon(0.15));
    CHECK(trend.least < 0.0002);
    CHECK(trend.most > 0.0002);
}
