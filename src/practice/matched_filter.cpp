#include "matched_filter.hpp"

#include "robust.hpp"

#include <algorithm>
#include <cmath>

namespace compline::practice {

namespace {

/// In four sums, so that the processor need not wait for one of them.
float product_of(const float* one, const float* other, std::size_t size) {
    float a = 0;
    float b = 0;
    float c = 0;
    float d = 0;
    const float* const end = one + size / 4 * 4;
    for (; one != end; one += 4, other += 4) {
        a += one[0] * other[0];
        b += one[1] * other[1];
        c += one[2] * other[2];
        d += one[3] * other[3];
    }
    for (std::size_t i = 0; i < size % 4; ++i) a += one[i] * other[i];
    return (a + b) + (c + d);
}

}  // namespace

std::vector<double> matched(std::span<const float> sound, std::span<const float> waveform) {
    if (sound.size() < waveform.size() || waveform.empty()) return {};
    const float energy = product_of(waveform.data(), waveform.data(), waveform.size());
    std::vector<double> values(sound.size() - waveform.size() + 1);
    for (std::size_t i = 0; i < values.size(); ++i) {
        const float sum = product_of(sound.data() + i, waveform.data(), waveform.size());
        values[i] = static_cast<double>(sum / energy);
    }
    return values;
}

double noise_of(std::vector<double> values) {
    if (values.empty()) return 0;
    for (auto& value : values) value = std::fabs(value);
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return in_a_median_deviation * *middle;
}

Top top_of(std::span<const double> values, std::size_t index) {
    const double at = std::fabs(values[index]);
    const auto middle = static_cast<double>(index);
    if (index == 0 || index + 1 >= values.size()) return {middle, at};
    const double sign = values[index] < 0 ? -1 : 1;
    const double before = sign * values[index - 1];
    const double behind = sign * values[index + 1];
    const double bend = before - 2 * at + behind;
    if (bend >= 0) return {middle, at};
    const double off = std::clamp(0.5 * (before - behind) / bend, -0.5, 0.5);
    return {middle + off, at - 0.25 * (before - behind) * off};
}

}  // namespace compline::practice
