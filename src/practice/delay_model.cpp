#include "delay_model.hpp"

namespace compline::practice {

std::vector<double> DelayModel::row_of(std::size_t place, double cycle_ms) const {
    std::vector<double> row;
    if (common) row.push_back(1);
    if (!cycles_held) row.push_back(cycle_ms);
    for (const auto string : own) row.push_back(string == place ? 1 : 0);
    return row;
}

double DelayFit::cycles() const {
    return model.cycles_held ? *model.cycles_held : solution.values[model.common ? 1 : 0];
}

double DelayFit::at(std::size_t place, double cycle_ms) const {
    return solution.at(model.row_of(place, cycle_ms)) + model.cycles_held.value_or(0) * cycle_ms;
}

std::optional<DelayFit> fit(const std::vector<DelayRow>& rows, const DelayModel& model) {
    LeastSquares squares(model.parameters());
    for (const auto& row : rows) {
        squares.add(model.row_of(row.place, row.cycle_ms),
                    row.delay_ms - model.cycles_held.value_or(0) * row.cycle_ms, row.weight);
    }
    auto solution = squares.solve();
    if (!solution) return std::nullopt;
    return DelayFit{model, std::move(*solution)};
}

std::optional<DelayFit> fit_within(const std::vector<DelayRow>& rows, DelayModel model,
                                   double most) {
    auto found = fit(rows, model);
    if (!found || (found->cycles() >= 0 && found->cycles() <= most)) return found;
    model.cycles_held = found->cycles() < 0 ? 0 : most;
    return fit(rows, model);
}

}  // namespace compline::practice
