#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace compline::practice {

/// Weighted least squares for few parameters: y = x[0] p[0] + x[1] p[1] + ... for each row.
class LeastSquares {
  public:
    struct Solution {
        std::vector<double> values;
        /// The inverse of the normal matrix, row by row: times the variance of a row of weight 1 it
        /// is the covariance of the values.
        std::vector<double> inverse;

        [[nodiscard]] double at(std::span<const double> row) const;
        /// Standard error of a value, and of what a row gives, for rows of this deviation.
        [[nodiscard]] double error(std::size_t value, double sd) const;
        [[nodiscard]] double error_at(std::span<const double> row, double sd) const;
    };

    explicit LeastSquares(std::size_t parameters);

    /// row: as many numbers as there are parameters.
    void add(std::span<const double> row, double y, double weight = 1);

    /// Nothing where the rows do not tell the parameters apart. By Cholesky's decomposition.
    [[nodiscard]] std::optional<Solution> solve() const;

  private:
    std::size_t size_;
    std::vector<double> normal_;
    std::vector<double> right_;
};

}  // namespace compline::practice
