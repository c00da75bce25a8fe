#include "reading_beam.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace compline::assess {

namespace {

constexpr double even_chance = -0.69;  // to play a chord that may be left out, and to leave it out

/// 2026-11-29: it bounds the time whatever the tune. A hundred states give the same figures, five
/// one name in 1,862 less.
constexpr std::size_t widest_beam = 15;
/// A reading so much less likely than another is given up.
constexpr double hopeless = 14;

}  // namespace

ReadingBeam::ReadingBeam(const Targets& targets, const Player& player, std::size_t strums)
    : targets_(targets),
      left_out_(std::log(player.leaves_out)),
      played_(std::log(1 - player.leaves_out)),
      ends_(strums + 1) {
    for (const auto& target : targets.due) optional_before_.push_back(target.optional ? 1 : 0);
    optional_before_.push_back(0);
    std::exclusive_scan(optional_before_.begin(), optional_before_.end(), optional_before_.begin(),
                        0);
    nodes_.push_back({});
    ends_.front() = {0};
}

double ReadingBeam::played(std::size_t target) const {
    return targets_.due[target].optional ? even_chance : played_;
}

double ReadingBeam::left_out(std::size_t from, std::size_t to) const {
    if (from >= to) return 0;
    const int optional = optional_before_[to] - optional_before_[from];
    const double others = static_cast<double>(to - from) - optional;
    return others * left_out_ + optional * even_chance;
}

void ReadingBeam::add(std::size_t strums, const PartialReading& node) {
    ends_[strums].push_back(static_cast<std::int32_t>(nodes_.size()));
    nodes_.push_back(node);
}

const ReadingBeam::Nodes& ReadingBeam::likely(std::size_t strums, std::size_t first_open) {
    auto& beam = ends_[strums];
    const auto state = [&](std::int32_t n) { return std::pair(node(n).chord, node(n).shift); };
    const auto rank = [&](std::int32_t n) { return std::pair(-standing(n, first_open), n); };
    std::sort(beam.begin(), beam.end(), [&](auto a, auto b) {
        return std::pair(state(a), rank(a)) < std::pair(state(b), rank(b));
    });
    beam.erase(
        std::unique(beam.begin(), beam.end(), [&](auto a, auto b) { return state(a) == state(b); }),
        beam.end());
    std::sort(beam.begin(), beam.end(), [&](auto a, auto b) { return rank(a) < rank(b); });
    if (beam.size() > widest_beam) beam.resize(widest_beam);
    const double least = standing(beam.front(), first_open) - hopeless;
    while (standing(beam.back(), first_open) < least) beam.pop_back();
    return beam;
}

/// What has not landed by now is left out, and paid for as such before readings are compared.
double ReadingBeam::standing(std::int32_t n, std::size_t first_open) const {
    return node(n).nats + left_out(node(n).next(), first_open);
}

std::vector<PartialReading> ReadingBeam::best(std::size_t first_open) {
    (void)likely(strums(), first_open);
    std::vector<PartialReading> path;
    for (auto n = likeliest(); node(n).before >= 0; n = node(n).before) path.push_back(node(n));
    std::reverse(path.begin(), path.end());
    return path;
}

/// The most likely end, with what it leaves out after its last change.
std::int32_t ReadingBeam::likeliest() const {
    const auto& ends = ends_.back();
    return *std::max_element(ends.begin(), ends.end(),
                             [&](auto a, auto b) { return at_end(a) < at_end(b); });
}

double ReadingBeam::at_end(std::int32_t n) const {
    return node(n).nats + left_out(node(n).next(), targets_.size());
}

std::size_t ReadingBeam::agreed() const {
    Nodes path;
    for (auto n = likeliest(); n >= 0; n = node(n).before) path.push_back(n);
    std::reverse(path.begin(), path.end());
    std::size_t common = path.size();
    for (auto n : ends_.back()) {
        while (!std::binary_search(path.begin(), path.end(), n)) n = node(n).before;
        const auto shared = std::lower_bound(path.begin(), path.end(), n) - path.begin() + 1;
        common = std::min(common, static_cast<std::size_t>(shared));
    }
    return common - 1;  // the first node has read nothing
}

std::size_t ReadingBeam::settled(const std::vector<PartialReading>& best, const EntryTimes& times,
                                 time::Seconds now) const {
    const std::size_t common = agreed();
    std::size_t settled = common > 0 ? best[common - 1].next() : 0;
    if (common < best.size()) return settled;
    while (settled < targets_.size() && times.over(settled) < now) ++settled;
    return settled;
}

}  // namespace compline::assess
