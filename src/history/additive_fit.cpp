#include "additive_fit.hpp"

#include "symmetric_system.hpp"

#include <numeric>
#include <utility>

namespace compline::history {

namespace {

constexpr double held_by = 1;  // changes

}  // namespace

AdditiveFit::AdditiveFit(std::vector<FitCell> cells, std::size_t evenings, std::size_t places)
    : cells_(std::move(cells)), evenings_(evenings), counts_(places), leaders_(places) {
    for (const auto& cell : cells_) {
        auto& evening = evenings_[cell.evening];
        if (evening.of == 0) evening.first_place = cell.place;
        evening.of += cell.of;
        evening.in_time += cell.in_time;
        counts_[cell.place] += cell.of;
    }
    group_places();
    fit_places();
}

std::size_t AdditiveFit::group_of(std::size_t place) const {
    while (leaders_[place] != place) place = leaders_[place];
    return place;
}

/// Places of one evening belong together.
void AdditiveFit::group_places() {
    std::iota(leaders_.begin(), leaders_.end(), std::size_t{0});
    for (const auto& cell : cells_) {
        const auto first = evenings_[cell.evening].first_place;
        leaders_[group_of(cell.place)] = group_of(first);
    }
}

void AdditiveFit::fit_places() {
    SymmetricSystem system(counts_.size());
    for (std::size_t place = 0; place < counts_.size(); ++place)
        system.add_on_diagonal(place, counts_[place] + held_by);
    std::size_t first = 0;
    for (std::size_t at = 0; at < cells_.size(); ++at) {
        const auto& cell = cells_[at];
        if (cell.evening != cells_[first].evening) first = at;
        const auto& evening = evenings_[cell.evening];
        system.add_right(cell.place, cell.in_time - cell.of * evening.in_time / evening.of);
        // Each pair of the evening's cells once from either side.
        for (std::size_t other = first; other < at; ++other) {
            const auto& before = cells_[other];
            system.add_both(cell.place, before.place, -cell.of * before.of / evening.of);
        }
        system.add_on_diagonal(cell.place, -cell.of * cell.of / evening.of);
    }
    places_ = std::move(system).solve();
}

std::vector<double> AdditiveFit::evening_values() const {
    std::vector<double> group_sums(counts_.size());
    std::vector<double> group_counts(counts_.size());
    for (std::size_t place = 0; place < counts_.size(); ++place) {
        group_sums[group_of(place)] += counts_[place] * places_[place];
        group_counts[group_of(place)] += counts_[place];
    }
    std::vector<double> values;
    for (const auto& evening : evenings_) {
        const auto group = group_of(evening.first_place);
        values.push_back(evening.in_time / evening.of + group_sums[group] / group_counts[group]);
    }
    for (const auto& cell : cells_)
        values[cell.evening] -= cell.of * places_[cell.place] / evenings_[cell.evening].of;
    return values;
}

}  // namespace compline::history
