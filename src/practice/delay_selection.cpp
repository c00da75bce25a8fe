#include "delay_selection.hpp"

#include "robust.hpp"

#include <compline/listen/pickup_words.hpp>

#include <algorithm>
#include <cmath>

namespace compline::practice {

namespace {

constexpr double most_cycles = 6;
constexpr double sure_by = 2.5;        // standard errors
constexpr double least_spread = 0.05;  // ms: no pickup and no onset is known better
/// Of Huber's weights, which cost a normal distribution 5 % of its precision ("Robust estimation of
/// a location parameter", 1964).
constexpr double huber = 1.345;
constexpr int rounds = 12;

std::vector<double> offs_of(const std::vector<DelayRow>& rows, const DelayFit& fit) {
    std::vector<double> offs;
    offs.reserve(rows.size());
    for (const auto& row : rows) offs.push_back(fit.off(row));
    return offs;
}

double spread_of(const std::vector<DelayRow>& rows, const DelayFit& fit) {
    return std::max(least_spread, spread_around_zero(offs_of(rows, fit)));
}

/// Every string has its own constant; cycles are held where no string has two pitches.
std::optional<DelayFit> fit_each(const std::vector<DelayRow>& rows, std::size_t strings,
                                 std::optional<double> cycles_held) {
    DelayModel model;
    model.common = false;
    model.cycles_held = cycles_held;
    for (std::size_t i = 0; i < strings; ++i) {
        const bool is_there = std::any_of(rows.begin(), rows.end(),
                                          [&](const DelayRow& row) { return row.place == i; });
        if (is_there) model.own.push_back(i);
    }
    auto found = fit_within(rows, model, most_cycles);
    if (!found && !cycles_held) return fit_each(rows, strings, listen::usual_cycles);
    return found;
}

/// Begins with the cycles that are usual and the median of each string, which a few wrong pairs do
/// not move.
std::vector<double> first_offs(const std::vector<DelayRow>& rows, std::size_t strings) {
    std::vector<std::vector<double>> by_string(strings);
    const auto constant = [](const DelayRow& row) {
        return row.delay_ms - listen::usual_cycles * row.cycle_ms;
    };
    for (const auto& row : rows) by_string[row.place].push_back(constant(row));
    std::vector<double> offs;
    offs.reserve(rows.size());
    for (const auto& row : rows) {
        offs.push_back(constant(row) - assess::median(by_string[row.place]));
    }
    return offs;
}

void weigh(std::vector<DelayRow>& rows, const std::vector<double>& offs) {
    const double spread = std::max(least_spread, spread_around_zero(offs));
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const double far = std::fabs(offs[i]) / (huber * spread);
        rows[i].weight = far > 1 ? 1 / far : 1;
    }
}

double sd_of(const std::vector<DelayRow>& rows, const DelayFit& fit) {
    double squares = 0;
    for (const auto& row : rows) squares += fit.off(row) * fit.off(row);
    const auto free =
        static_cast<double>(rows.size()) - static_cast<double>(fit.model.parameters());
    return std::max(least_spread, std::sqrt(squares / std::max(1.0, free)));
}

}  // namespace

SiftedRows sift(const std::vector<DelayRow>& rows, std::size_t strings) {
    SiftedRows sifted;
    auto weighed = rows;
    auto offs = first_offs(rows, strings);
    std::optional<DelayFit> each;
    for (int i = 0; i < rounds; ++i) {
        weigh(weighed, offs);
        each = fit_each(weighed, strings, std::nullopt);
        if (!each) return sifted;
        offs = offs_of(rows, *each);
    }
    sifted.spread_ms = spread_of(rows, *each);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (std::fabs(offs[i]) <= far_off * sifted.spread_ms) sifted.rows.push_back(rows[i]);
    }
    sifted.left_out = static_cast<int>(rows.size() - sifted.rows.size());
    sifted.each = fit_each(sifted.rows, strings, std::nullopt);
    if (sifted.each) sifted.sd_ms = sd_of(sifted.rows, *sifted.each);
    return sifted;
}

bool OwnConstant::is_sure() const { return std::fabs(ms) > sure_by * error_ms; }

namespace {

/// The last string with a constant of its own.
OwnConstant last_own(const DelayFit& fit, double sd) {
    const auto last = fit.model.own.size() - 1;
    return {fit.own(last), fit.own_error(last, sd)};
}

std::optional<DelayFit> with_own(const SiftedRows& sifted, DelayModel model, std::size_t string) {
    model.own.push_back(string);
    return fit_within(sifted.rows, model, most_cycles);
}

DelayModel without(DelayModel model, std::size_t string) {
    std::erase(model.own, string);
    return model;
}

/// The fit with one more difference, the surest, if it is sure at all.
std::optional<DelayFit> one_more(const SiftedRows& sifted, const DelayFit& fit,
                                 std::size_t strings) {
    std::optional<DelayFit> best;
    double surest = 0;
    for (std::size_t i = 0; i < strings; ++i) {
        if (std::count(fit.model.own.begin(), fit.model.own.end(), i) > 0) continue;
        const auto next = with_own(sifted, fit.model, i);
        if (!next) continue;
        const auto own = last_own(*next, sifted.sd_ms);
        const double errors = std::fabs(own.ms) / own.error_ms;
        if (!own.is_sure() || errors <= surest) continue;
        surest = errors;
        best = next;
    }
    return best;
}

}  // namespace

std::optional<DelayFit> fewest_differences(const SiftedRows& sifted, std::size_t strings) {
    auto chosen = fit_within(sifted.rows, {}, most_cycles);
    if (!chosen) return std::nullopt;
    while (auto more = one_more(sifted, *chosen, strings)) chosen = more;
    return chosen;
}

std::vector<std::optional<OwnConstant>> own_constants(const SiftedRows& sifted,
                                                      const DelayFit& chosen, std::size_t strings) {
    std::vector<std::optional<OwnConstant>> constants(strings);
    for (std::size_t i = 0; i < strings; ++i) {
        // Beside all others, as in the fit.
        const auto beside = with_own(sifted, without(chosen.model, i), i);
        if (beside) constants[i] = last_own(*beside, sifted.sd_ms);
    }
    return constants;
}

}  // namespace compline::practice
