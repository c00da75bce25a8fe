#include "least_squares.hpp"

#include <algorithm>
#include <cmath>

namespace compline::practice {

namespace {

/// What is left of a row's own weight once all others have explained theirs: less is nothing.
constexpr double apart_at_all = 1e-9;

/// The lower triangle L with L times its transpose = the matrix, in place; false where it is
/// singular.
bool decompose(std::vector<double>& matrix, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i) {
        const double whole = matrix[i * n + i];
        for (std::size_t j = 0; j <= i; ++j) {
            double sum = matrix[i * n + j];
            for (std::size_t k = 0; k < j; ++k) sum -= matrix[i * n + k] * matrix[j * n + k];
            if (i != j) {
                matrix[i * n + j] = sum / matrix[j * n + j];
            } else if (sum <= apart_at_all * whole) {
                return false;
            } else {
                matrix[i * n + i] = std::sqrt(sum);
            }
        }
    }
    return true;
}

/// Solves L times its transpose times x = right, in place.
void solve_by(const std::vector<double>& lower, std::size_t n, std::span<double> right) {
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t k = 0; k < i; ++k) right[i] -= lower[i * n + k] * right[k];
        right[i] /= lower[i * n + i];
    }
    for (std::size_t i = n; i-- > 0;) {
        for (std::size_t k = i + 1; k < n; ++k) right[i] -= lower[k * n + i] * right[k];
        right[i] /= lower[i * n + i];
    }
}

}  // namespace

LeastSquares::LeastSquares(std::size_t parameters)
    : size_(parameters), normal_(parameters * parameters), right_(parameters) {}

void LeastSquares::add(std::span<const double> row, double y, double weight) {
    for (std::size_t i = 0; i < size_; ++i) {
        right_[i] += weight * row[i] * y;
        for (std::size_t j = 0; j < size_; ++j) normal_[i * size_ + j] += weight * row[i] * row[j];
    }
}

std::optional<LeastSquares::Solution> LeastSquares::solve() const {
    auto lower = normal_;
    if (!decompose(lower, size_)) return std::nullopt;
    Solution solution{right_, std::vector<double>(size_ * size_)};
    solve_by(lower, size_, solution.values);
    for (std::size_t i = 0; i < size_; ++i) {
        const std::span column(solution.inverse.data() + i * size_, size_);
        column[i] = 1;
        solve_by(lower, size_, column);
    }
    return solution;
}

double LeastSquares::Solution::at(std::span<const double> row) const {
    double sum = 0;
    for (std::size_t i = 0; i < values.size(); ++i) sum += row[i] * values[i];
    return sum;
}

double LeastSquares::Solution::error(std::size_t value, double sd) const {
    return sd * std::sqrt(inverse[value * values.size() + value]);
}

double LeastSquares::Solution::error_at(std::span<const double> row, double sd) const {
    double sum = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        for (std::size_t j = 0; j < values.size(); ++j) {
            sum += row[i] * row[j] * inverse[i * values.size() + j];
        }
    }
    return sd * std::sqrt(std::max(0.0, sum));
}

}  // namespace compline::practice
