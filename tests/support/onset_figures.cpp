#include "onset_figures.hpp"

#include <algorithm>
#include <cmath>

namespace compline::tests {

OnsetFigures figures_of(const std::vector<double>& wanted_s, const std::vector<double>& heard_s) {
    constexpr double reach_ms = 20;
    std::vector<bool> used(heard_s.size());
    std::vector<double> offs;
    for (const double wanted : wanted_s) {
        std::size_t best = heard_s.size();
        double nearest = reach_ms;
        for (std::size_t i = 0; i < heard_s.size(); ++i) {
            const double off = std::fabs(heard_s[i] - wanted) * 1000;
            if (used[i] || off > nearest) continue;
            nearest = off;
            best = i;
        }
        if (best == heard_s.size()) continue;
        used[best] = true;
        offs.push_back((heard_s[best] - wanted) * 1000);
    }
    OnsetFigures figures;
    figures.wanted = static_cast<int>(wanted_s.size());
    figures.found = static_cast<int>(offs.size());
    figures.extra = static_cast<int>(heard_s.size()) - figures.found;
    if (offs.empty()) return figures;
    std::sort(offs.begin(), offs.end());
    figures.bias_ms = offs[offs.size() / 2];
    int within = 0;
    for (const double off : offs) {
        if (std::fabs(off - figures.bias_ms) <= 1) ++within;
        figures.worst_ms = std::max(figures.worst_ms, std::fabs(off));
    }
    figures.within_ms_share = static_cast<double>(within) / static_cast<double>(offs.size());
    return figures;
}

std::vector<listen::SoundOnset> onsets_of(const std::vector<float>& sound, time::SampleRate rate,
                                          std::size_t block) {
    listen::SoundOnsets listener(rate);
    std::vector<listen::SoundOnset> all;
    for (std::size_t at = 0; at < sound.size(); at += block) {
        const auto news = listener.add({sound.data() + at, std::min(block, sound.size() - at)});
        all.insert(all.end(), news.begin(), news.end());
    }
    return all;
}

std::vector<double> seconds_of(const std::vector<listen::SoundOnset>& onsets,
                               time::SampleRate rate) {
    std::vector<double> seconds;
    for (const auto& onset : onsets) seconds.push_back(time::time_of(onset.at, rate).count());
    return seconds;
}

}  // namespace compline::tests
