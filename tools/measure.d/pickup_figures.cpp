
#include "measure.d/pickup_study.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <utility>

namespace compline::measure {

namespace {

constexpr time::Seconds window{0.050};

using Voice = std::pair<int, int>;  // string, pitch

std::map<Voice, std::vector<std::size_t>> by_voice(std::span<const listen::Note> notes) {
    std::map<Voice, std::vector<std::size_t>> voices;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        voices[{notes[i].string.value_or(0), notes[i].note.number()}].push_back(i);
    }
    return voices;
}

double ratio(int part, int whole) {
    return whole == 0 ? 1 : static_cast<double>(part) / static_cast<double>(whole);
}

}  // namespace

NoteMatching match_notes(std::span<const listen::Note> truth, std::span<const listen::Note> heard) {
    NoteMatching matching;
    matching.heard_as.resize(truth.size());
    matching.extra.assign(heard.size(), true);
    auto heard_voices = by_voice(heard);
    for (const auto& [voice, played] : by_voice(truth)) {
        const auto& said = heard_voices[voice];
        // The earliest pair that can be is part of a largest matching (see match_onsets).
        std::size_t t = 0;
        std::size_t h = 0;
        while (t < played.size() && h < said.size()) {
            const auto apart = heard[said[h]].on - truth[played[t]].on;
            if (time::abs(apart) <= window) {
                matching.heard_as[played[t++]] = said[h];
                matching.extra[said[h++]] = false;
            } else if (apart < time::Seconds(0)) {
                ++h;
            } else {
                ++t;
            }
        }
    }
    return matching;
}

double Found::recall() const { return ratio(matched, played); }
double Found::precision() const { return ratio(matched, heard); }
double Found::f_measure() const {
    const double sum = recall() + precision();
    return sum > 0 ? 2 * recall() * precision() / sum : 0;
}

Found& Found::operator+=(const Found& other) {
    played += other.played;
    heard += other.heard;
    matched += other.matched;
    return *this;
}

Found PickupFigures::tones() const {
    Found all;
    for (const auto& string : strings) all += string;
    return all;
}

double PickupFigures::bias_ms() const {
    const auto& errors = lateness_errors_ms;
    if (errors.empty()) return 0;
    return std::accumulate(errors.begin(), errors.end(), 0.0) / static_cast<double>(errors.size());
}

double PickupFigures::sd_ms() const {
    const auto& errors = lateness_errors_ms;
    if (errors.size() < 2) return 0;
    const double mean = bias_ms();
    double squares = 0;
    for (const double error : errors) squares += (error - mean) * (error - mean);
    return std::sqrt(squares / static_cast<double>(errors.size() - 1));
}

double PickupFigures::p95_ms() const {
    std::vector<double> sizes;
    for (const double error : lateness_errors_ms) sizes.push_back(std::fabs(error));
    if (sizes.empty()) return 0;
    std::sort(sizes.begin(), sizes.end());
    return sizes[std::min(sizes.size() - 1, sizes.size() * 95 / 100)];
}

double PickupFigures::false_wrong_rate() const {
    return right_clean == 0 ? 0 : ratio(false_wrong, right_clean);
}

}  // namespace compline::measure
