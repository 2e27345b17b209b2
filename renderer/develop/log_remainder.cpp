#include "develop/log_remainder.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace dapple {

namespace {

using Terms = std::array<double, kFitTerms>;
using Normal6 = std::array<Terms, kFitTerms>;

// A fit needs many more pixels than terms.
constexpr int kLeastPixels = 36;

// The six terms at x, y within the cell, scaled to [-1, 1] so that the equations are well
// conditioned.
Terms terms_at(int x, int y, int cell) {
    const double s = 2.0 * (x + 0.5) / cell - 1.0;
    const double t = 2.0 * (y + 0.5) / cell - 1.0;
    return {1.0, s, t, s * s, s * t, t * t};
}

double dot(const Terms& a, const Terms& b) {
    double sum = 0;
    for (size_t i = 0; i < kFitTerms; ++i) sum += a[i] * b[i];
    return sum;
}

// Solves the symmetric positive definite system by elimination, which then needs no pivoting.
Terms solve(Normal6 m, Terms b) {
    for (size_t i = 0; i < kFitTerms; ++i) {
        for (size_t j = i + 1; j < kFitTerms; ++j) {
            const double f = m[j][i] / m[i][i];
            for (size_t k = i; k < kFitTerms; ++k) m[j][k] -= f * m[i][k];
            b[j] -= f * b[i];
        }
    }
    Terms x{};
    for (size_t i = kFitTerms; i-- > 0;) {
        double sum = b[i];
        for (size_t k = i + 1; k < kFitTerms; ++k) sum -= m[i][k] * x[k];
        x[i] = sum / m[i][i];
    }
    return x;
}

struct Cell {
    int x0, y0, x1, y1, size;
};

template <typename Visit>
void visit_pixels(const RegionImage& region, const Cell& cell, const Visit& visit) {
    for (int y = cell.y0; y < cell.y1; ++y) {
        for (int x = cell.x0; x < cell.x1; ++x) {
            const size_t i = region.index(x, y);
            if (region.inside[i]) visit(i, terms_at(x - cell.x0, y - cell.y0, cell.size));
        }
    }
}

double log_luminance(const RegionImage& region, size_t i) {
    return std::log2(std::max(region.luminance[i], region.floor));
}

struct Sums {
    double squares = 0;  // of the remainder
    double noise = 0;
    int64_t pixels = 0;
    int64_t freedom = 0;  // pixels less terms
};

void fit_cell(const RegionImage& region, const Cell& cell, LogRemainder& field, Sums& sums) {
    Normal6 m{};
    Terms b{};
    int pixels = 0;
    visit_pixels(region, cell, [&](size_t i, const Terms& t) {
        const double value = log_luminance(region, i);
        for (size_t r = 0; r < kFitTerms; ++r) {
            for (size_t c = 0; c < kFitTerms; ++c) m[r][c] += t[r] * t[c];
            b[r] += t[r] * value;
        }
        ++pixels;
    });
    if (pixels < kLeastPixels) return;
    // In a narrow sliver of a cell the terms are not independent. A small weight that pulls the
    // coefficients to 0 keeps the system solvable.
    for (size_t r = 0; r < kFitTerms; ++r) m[r][r] += 1e-9 * pixels;
    const Terms fit = solve(m, b);
    visit_pixels(region, cell, [&](size_t i, const Terms& t) {
        const double rest = log_luminance(region, i) - dot(fit, t);
        const double level = std::max(region.luminance[i], region.floor) * std::log(2.0);
        field.stops[i] = static_cast<float>(rest);
        sums.squares += rest * rest;
        sums.noise += region.variance[i] / (level * level);
    });
    sums.pixels += pixels;
    sums.freedom += pixels - kFitTerms;
}

}  // namespace

std::optional<LogRemainder> make_log_remainder(const RegionImage& region, int cell) {
    bool lit = false;
    for (size_t i = 0; i < region.luminance.size(); ++i) {
        lit = lit || (region.inside[i] && region.luminance[i] > region.floor);
    }
    if (!lit || cell < 1 || !(region.floor > 0)) return std::nullopt;
    LogRemainder field{region.width, region.height, {}, 0, 0};
    field.stops.assign(region.luminance.size(), std::numeric_limits<float>::quiet_NaN());
    Sums sums;
    for (int y = 0; y < region.height; y += cell) {
        for (int x = 0; x < region.width; x += cell) {
            const Cell here{
                x, y, std::min(x + cell, region.width), std::min(y + cell, region.height), cell};
            fit_cell(region, here, field, sums);
        }
    }
    if (sums.freedom == 0) return std::nullopt;
    field.variance = sums.squares / static_cast<double>(sums.freedom);
    field.noise = sums.noise / static_cast<double>(sums.pixels);
    return field;
}

}  // namespace dapple
