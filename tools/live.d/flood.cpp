#include "flood.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <numbers>

namespace compline::outside {

using time::Seconds;

namespace {

constexpr int strings = 6;
constexpr double vibrato_hz = 5.5;
constexpr double widest = 0.2 / 2 * 8192;  // 20 cents of two semitones

midi::TimedMessage bend(std::int64_t n) {
    const Seconds at(static_cast<double>(n) / flood_a_second);
    const int channel = static_cast<int>(n % strings) + 1;
    // No two strings together.
    const double turns = vibrato_hz * at.count() + static_cast<double>(channel) / strings;
    const double depth = widest * std::sin(2 * std::numbers::pi * turns);
    return {at, midi::pitch_bend(channel, static_cast<int>(std::lround(depth)))};
}

}  // namespace

std::vector<midi::TimedMessage> flood(Seconds from, Seconds to) {
    std::vector<midi::TimedMessage> bends;
    const auto first = static_cast<std::int64_t>(std::ceil(from.count() * flood_a_second));
    const auto end = static_cast<std::int64_t>(std::ceil(to.count() * flood_a_second));
    for (std::int64_t n = first; n < end; ++n) bends.push_back(bend(n));
    return bends;
}

std::vector<midi::TimedMessage> flooded(const std::vector<midi::TimedMessage>& played, Seconds from,
                                        Seconds to) {
    const auto bends = flood(from, to);
    std::vector<midi::TimedMessage> all;
    all.reserve(played.size() + bends.size());
    std::merge(played.begin(), played.end(), bends.begin(), bends.end(), std::back_inserter(all),
               [](const auto& a, const auto& b) { return a.at < b.at; });
    return all;
}

}  // namespace compline::outside
