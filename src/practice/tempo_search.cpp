#include "tempo_search.hpp"

#include <algorithm>
#include <cmath>

namespace compline::practice {

namespace {

constexpr double slowest = 0.915;
constexpr double fastest = 1.085;
constexpr std::size_t first_strums = 32;

}  // namespace

TempoSearch::TempoSearch(const RoughFit& fit, const std::vector<RoughStrum>& strums,
                         time::Seconds beat)
    : fit_(fit), strums_(strums), beat_(beat) {}

double TempoSearch::faster() {
    if (strums_.empty()) return 1;
    look_at(first_strums);
    std::vector<Tried> tempi;
    for (double faster = slowest; faster <= fastest; faster += step_) {
        tempi.push_back(tried(faster));
    }
    tempi = best_of(std::move(tempi));
    while (looked_at_ < strums_.size()) {
        const double reach = step_;
        look_at(looked_at_ * 2);
        tempi = best_of(around(tempi, reach));
    }
    return tempi.front().faster;
}

void TempoSearch::look_at(std::size_t strums) {
    constexpr double error = 0.04;  // beats, at the end of what is looked at
    constexpr double fewest_beats = 8;
    looked_at_ = std::min(strums, strums_.size());
    const double beats = strums_[looked_at_ - 1].at / beat_;
    step_ = std::min(step_, error / std::max(fewest_beats, beats));
}

TempoSearch::Tried TempoSearch::tried(double faster) const {
    const std::span<const RoughStrum> first(strums_.data(), looked_at_);
    const Moved moved{time::Seconds(0), faster, 0};
    const double in_time = fit_.of_time(first, moved, RoughFit::OffBeats::count_alike);
    return {faster, fit_.of_tones(first, moved) + in_time / 2};
}

/// The best few that are not neighbours.
std::vector<TempoSearch::Tried> TempoSearch::best_of(std::vector<Tried> all) const {
    constexpr std::size_t most = 5;
    std::stable_sort(all.begin(), all.end(),
                     [](const Tried& a, const Tried& b) { return a.fit > b.fit; });
    std::vector<Tried> best;
    for (const auto& one : all) {
        const bool near = std::any_of(best.begin(), best.end(), [&](const Tried& other) {
            return std::fabs(other.faster - one.faster) < 2 * step_;
        });
        if (!near) best.push_back(one);
        if (best.size() == most) break;
    }
    return best;
}

std::vector<TempoSearch::Tried> TempoSearch::around(const std::vector<Tried>& tempi,
                                                    double reach) const {
    std::vector<Tried> finer;
    for (const auto& tempo : tempi) {
        for (double off = -reach; off <= reach; off += step_) {
            finer.push_back(tried(tempo.faster + off));
        }
    }
    return finer;
}

}  // namespace compline::practice
