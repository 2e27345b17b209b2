// Least squares by the normal equations, for a few columns.
//
//   G β = X'y,  G = X'X                                                                     (E180)
// The columns of X are effects coded (main_effects.h), so G is well conditioned unless columns
// depend on each other. A column whose square is reduced below 1e-9 by the columns before it
// depends on them.
#pragma once

#include <cstddef>
#include <vector>

namespace dapple {

// A symmetric matrix, row by row.
struct GramMatrix {
    size_t size = 0;
    std::vector<double> at;

    explicit GramMatrix(size_t n) : size(n), at(n * n, 0.0) {}
    double& operator()(size_t i, size_t j) { return at[i * size + j]; }
    double operator()(size_t i, size_t j) const { return at[i * size + j]; }
};

// X'X for rows of equal length.
GramMatrix make_gram_matrix(const std::vector<std::vector<double>>& rows);

// Which of `columns`, taken in their order, depend on those before.
std::vector<size_t> dependent_columns(const GramMatrix& gram, const std::vector<size_t>& columns);

// The inverse over `columns`; rows and columns of all others are 0. The columns must not depend on
// each other.
GramMatrix invert(const GramMatrix& gram, const std::vector<size_t>& columns);

}  // namespace dapple
