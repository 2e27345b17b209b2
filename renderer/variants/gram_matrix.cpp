#include "variants/gram_matrix.h"

#include <cmath>

namespace dapple {

namespace {

constexpr double kDependent = 1e-9;  // of the column's square

}  // namespace

GramMatrix make_gram_matrix(const std::vector<std::vector<double>>& rows) {
    GramMatrix gram(rows.empty() ? 0 : rows.front().size());
    for (const std::vector<double>& row : rows) {
        for (size_t i = 0; i < gram.size; ++i) {
            if (row[i] == 0) continue;
            for (size_t j = 0; j < gram.size; ++j) gram(i, j) += row[i] * row[j];
        }
    }
    return gram;
}

std::vector<size_t> dependent_columns(const GramMatrix& gram, const std::vector<size_t>& columns) {
    // Cholesky, L L' = G, leaving out the columns that depend.
    std::vector<size_t> kept;
    std::vector<std::vector<double>> lower;
    std::vector<size_t> dependent;
    for (const size_t c : columns) {
        std::vector<double> row;
        double rest = gram(c, c);
        for (size_t k = 0; k < kept.size(); ++k) {
            double sum = gram(c, kept[k]);
            for (size_t m = 0; m < k; ++m) sum -= row[m] * lower[k][m];
            row.push_back(sum / lower[k][k]);
            rest -= row.back() * row.back();
        }
        if (!(rest > kDependent * gram(c, c))) {
            dependent.push_back(c);
            continue;
        }
        row.push_back(std::sqrt(rest));
        kept.push_back(c);
        lower.push_back(std::move(row));
    }
    return dependent;
}

GramMatrix invert(const GramMatrix& gram, const std::vector<size_t>& columns) {
    // Gauss and Jordan; G is positive definite over these columns, so no pivot is exchanged.
    GramMatrix left = gram;
    GramMatrix inverse(gram.size);
    for (const size_t c : columns) inverse(c, c) = 1;
    for (const size_t p : columns) {
        const double scale = 1 / left(p, p);
        for (const size_t j : columns) {
            left(p, j) *= scale;
            inverse(p, j) *= scale;
        }
        for (const size_t i : columns) {
            if (i == p) continue;
            const double factor = left(i, p);
            if (factor == 0) continue;
            for (const size_t j : columns) {
                left(i, j) -= factor * left(p, j);
                inverse(i, j) -= factor * inverse(p, j);
            }
        }
    }
    return inverse;
}

}  // namespace dapple
