#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace compline::history {

/// Linear equations whose matrix is symmetric and positive definite, as normal equations are.
class SymmetricSystem {
  public:
    explicit SymmetricSystem(std::size_t size) : size_(size), matrix_(size * size), right_(size) {}

    void add_on_diagonal(std::size_t row, double value) { at(row, row) += value; }
    /// To an entry and to the one across the diagonal; to one on it, which is both, twice.
    void add_both(std::size_t row, std::size_t column, double value) {
        at(std::max(row, column), std::min(row, column)) += row == column ? 2 * value : value;
    }
    void add_right(std::size_t row, double value) { right_[row] += value; }

    /// By Cholesky's decomposition, in place.
    [[nodiscard]] std::vector<double> solve() &&;

  private:
    [[nodiscard]] double& at(std::size_t row, std::size_t column) {
        return matrix_[row * size_ + column];
    }
    void decompose();

    std::size_t size_;
    std::vector<double> matrix_;  ///< row by row; above the diagonal nothing is read
    std::vector<double> right_;
};

}  // namespace compline::history
