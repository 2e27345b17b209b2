#include "judge/log_remainder.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace dapple {

namespace {

using Terms = std::array<double, kFitTerms>;
using Normals = std::array<Terms, kFitTerms>;

// A fit needs many more pixels than terms.
constexpr int kLeastPixels = 36;

constexpr double kLeastPaint = 0.005;

// The terms at x, y within the cell, scaled to [-1, 1] so that the equations are well conditioned.
// `paint` is log2 of the reflectance.
Terms terms_at(int x, int y, int cell, double paint) {
    const double s = 2.0 * (x + 0.5) / cell - 1.0;
    const double t = 2.0 * (y + 0.5) / cell - 1.0;
    return {1.0, s, t, s * s, s * t, t * t, paint};
}

double paint_at(const RegionImage& region, size_t i) {
    if (region.reflectance.empty()) return 0;
    return std::log2(std::max(region.reflectance[i], kLeastPaint));
}

double dot(const Terms& a, const Terms& b) {
    double sum = 0;
    for (size_t i = 0; i < kFitTerms; ++i) sum += a[i] * b[i];
    return sum;
}

// Solves the symmetric positive definite system by elimination, which then needs no pivoting.
Terms solve(Normals m, Terms b) {
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
            if (!region.inside[i]) continue;
            visit(i, terms_at(x - cell.x0, y - cell.y0, cell.size, paint_at(region, i)));
        }
    }
}

// The lowest luminance that counts in a cell: that of its noise, because a half of the walks may
// have nothing where the light is weak.
double floor_of(const RegionImage& region, const Cell& cell) {
    double squares = 0;
    int pixels = 0;
    visit_pixels(region, cell, [&](size_t i, const Terms&) {
        squares += region.noise[i] * region.noise[i];
        ++pixels;
    });
    return std::max(region.floor, pixels > 0 ? std::sqrt(squares / pixels) : 0.0);
}

// The two halves of the light of a pixel, in stops.
struct Halves {
    double first, second;
};
Halves halves_of(const RegionImage& region, size_t i, double floor) {
    return {std::log2(std::max(region.luminance[i] + region.noise[i], floor)),
            std::log2(std::max(region.luminance[i] - region.noise[i], floor))};
}

struct Sums {
    double products = 0;       // of the two remainders
    double noise_squares = 0;  // of the parts' half-differences
    int64_t freedom = 0;       // pixels less terms
};

struct Fit {
    Terms first{}, second{};
    int pixels = 0;
    double floor = 0;  // cd/m²
};

Fit fit_cell(const RegionImage& region, const Cell& cell) {
    Normals m{};
    Fit sums;
    sums.floor = floor_of(region, cell);
    visit_pixels(region, cell, [&](size_t i, const Terms& t) {
        const Halves stops = halves_of(region, i, sums.floor);
        for (size_t r = 0; r < kFitTerms; ++r) {
            for (size_t c = 0; c < kFitTerms; ++c) m[r][c] += t[r] * t[c];
            sums.first[r] += t[r] * stops.first;
            sums.second[r] += t[r] * stops.second;
        }
        ++sums.pixels;
    });
    if (sums.pixels < kLeastPixels) return sums;
    // In a narrow sliver of a cell, or on even paint, the terms are not independent. A small weight
    // that pulls the coefficients to 0 keeps the system solvable.
    for (size_t r = 0; r < kFitTerms; ++r) m[r][r] += 1e-9 * sums.pixels;
    return {solve(m, sums.first), solve(m, sums.second), sums.pixels, sums.floor};
}

void add_cell(const RegionImage& region, const Cell& cell, LogRemainder& field, Sums& sums) {
    const Fit fit = fit_cell(region, cell);
    if (fit.pixels < kLeastPixels) return;
    std::array<double, 4> differences{};  // by quarter
    visit_pixels(region, cell, [&](size_t i, const Terms& t) {
        const Halves stops = halves_of(region, i, fit.floor);
        const double a = stops.first - dot(fit.first, t);
        const double b = stops.second - dot(fit.second, t);
        field.first[i] = static_cast<float>(a);
        field.second[i] = static_cast<float>(b);
        sums.products += a * b;
        differences[(t[1] < 0 ? 0U : 1U) + (t[2] < 0 ? 0U : 2U)] += 0.5 * (a * a - b * b);
    });
    for (const double d : differences) sums.noise_squares += d * d;
    sums.freedom += fit.pixels - kFitTerms;
}

}  // namespace

bool is_lit(const RegionImage& region) {
    for (size_t i = 0; i < region.luminance.size(); ++i) {
        if (region.inside[i] && region.luminance[i] > region.floor) return true;
    }
    return false;
}

std::optional<LogRemainder> make_log_remainder(const RegionImage& region, int cell) {
    if (cell < 1 || !(region.floor > 0)) return std::nullopt;
    LogRemainder field{region.width, region.height, {}, {}, 0, 0};
    field.first.assign(region.luminance.size(), std::numeric_limits<float>::quiet_NaN());
    field.second = field.first;
    Sums sums;
    for (int y = 0; y < region.height; y += cell) {
        for (int x = 0; x < region.width; x += cell) {
            const Cell here{
                x, y, std::min(x + cell, region.width), std::min(y + cell, region.height), cell};
            add_cell(region, here, field, sums);
        }
    }
    if (sums.freedom == 0) return std::nullopt;
    const auto freedom = static_cast<double>(sums.freedom);
    field.covariance = sums.products / freedom;
    field.covariance_stderr = std::sqrt(sums.noise_squares) / freedom;
    return field;
}

}  // namespace dapple
