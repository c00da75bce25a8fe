#include "symmetric_system.hpp"

#include <cmath>
#include <utility>

namespace compline::history {

void SymmetricSystem::decompose() {
    for (std::size_t row = 0; row < size_; ++row) {
        for (std::size_t column = 0; column <= row; ++column) {
            double sum = at(row, column);
            for (std::size_t k = 0; k < column; ++k) sum -= at(row, k) * at(column, k);
            at(row, column) = row == column ? std::sqrt(sum) : sum / at(column, column);
        }
    }
}

std::vector<double> SymmetricSystem::solve() && {
    decompose();
    for (std::size_t row = 0; row < size_; ++row) {
        for (std::size_t k = 0; k < row; ++k) right_[row] -= at(row, k) * right_[k];
        right_[row] /= at(row, row);
    }
    for (std::size_t row = size_; row-- > 0;) {
        for (std::size_t k = row + 1; k < size_; ++k) right_[row] -= at(k, row) * right_[k];
        right_[row] /= at(row, row);
    }
    return std::move(right_);
}

}  // namespace compline::history
