#include "judge/patch_size.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "base/parallel.h"

namespace dapple {

namespace {

constexpr int kNone = -1;
constexpr int kBands = 8;  // of rows, left out one at a time
// A direction counts if its minimum is this deep, of the deepest. Along the diagonal of a
// checkerboard the minimum is half as deep as across its squares.
constexpr double kLeastDepth = 0.75;

// Sums of r₁(x) r₂(x + lag) and r₂(x) r₁(x + lag), by band of rows.
struct Correlation {
    std::array<double, kBands> sums{};
    std::array<double, kBands> pairs{};

    // Mean over all bands but `left_out`.
    double mean(int left_out) const {
        double sum = 0;
        double count = 0;
        for (int band = 0; band < kBands; ++band) {
            if (band == left_out) continue;
            sum += sums[static_cast<size_t>(band)];
            count += pairs[static_cast<size_t>(band)];
        }
        return count > 0 ? sum / count : 0;
    }
};

Correlation correlate(const LogRemainder& field, int dx, int dy) {
    Correlation result;
    for (int y = 0; y + dy < field.height; ++y) {
        const auto band = static_cast<size_t>(kBands * y / field.height);
        for (int x = std::max(0, -dx); x < std::min(field.width, field.width - dx); ++x) {
            const size_t here = field.index(x, y);
            const size_t there = field.index(x + dx, y + dy);
            if (std::isnan(field.first[here]) || std::isnan(field.first[there])) continue;
            result.sums[band] += static_cast<double>(field.first[here]) * field.second[there];
            result.sums[band] += static_cast<double>(field.second[here]) * field.first[there];
            result.pairs[band] += 2;
        }
    }
    return result;
}

// Lags along one direction.
struct Lags {
    double step = 1;  // px
    std::vector<Correlation> correlations;
};

// The correlation over the lag, up to a little past its first minimum.
struct Profile {
    std::vector<double> a;
    size_t lowest = 0;
    bool is_past_minimum = false;

    void add(double value) {
        a.push_back(value);
        if (value < a[lowest]) lowest = a.size() - 1;
        const double depth = a[0] - a[lowest];
        is_past_minimum = depth > 0.5 * a[0] && value > a[lowest] + 0.1 * depth;
    }
};

Lags correlate_along(const LogRemainder& field, int dx, int dy, int reach) {
    Lags lags{std::hypot(dx, dy), {}};
    Profile curve;
    for (int lag = 0; lag <= reach && !curve.is_past_minimum; ++lag) {
        lags.correlations.push_back(correlate(field, lag * dx, lag * dy));
        curve.add(lags.correlations.back().mean(kNone));
    }
    return lags;
}

struct Width {
    double px = 0;  // full width, half of the way down from the peak at lag 0 to the first minimum
    double depth = 0;  // of the minimum under the peak, over the peak
};
std::optional<Width> width_of(const Lags& lags, int left_out) {
    Profile curve;
    for (size_t i = 0; i < lags.correlations.size() && !curve.is_past_minimum; ++i) {
        curve.add(lags.correlations[i].mean(left_out));
    }
    const std::vector<double>& a = curve.a;
    if (!(a[0] > 0) || a[curve.lowest] > 0.5 * a[0]) return std::nullopt;
    const double half = 0.5 * (a[0] + a[curve.lowest]);
    size_t k = 1;
    while (a[k] > half) ++k;
    const double crossing = static_cast<double>(k - 1) + (a[k - 1] - half) / (a[k - 1] - a[k]);
    return Width{2 * crossing * lags.step, 1 - a[curve.lowest] / a[0]};
}

// Jackknife over the bands (Efron and Stein 1981): s² = (k - 1)/k Σ (w_i - mean w)².
double error_of(const Lags& lags) {
    std::vector<double> widths;
    double mean = 0;
    for (int band = 0; band < kBands; ++band) {
        const auto width = width_of(lags, band);
        if (!width) continue;
        widths.push_back(width->px);
        mean += width->px;
    }
    const auto count = static_cast<double>(widths.size());
    if (count < 2) return 0;
    mean /= count;
    double squares = 0;
    for (const double width : widths) squares += (width - mean) * (width - mean);
    return std::sqrt((count - 1) / count * squares);
}

}  // namespace

Measure measure_patch_size(const LogRemainder& field, int reach) {
    constexpr std::array<std::array<int, 2>, 4> kSteps = {{{1, 0}, {0, 1}, {1, 1}, {-1, 1}}};
    std::array<Lags, 4> lags;
    parallel_blocks(4, 1, [&](int64_t i, int64_t) {
        const auto& step = kSteps[static_cast<size_t>(i)];
        lags[static_cast<size_t>(i)] = correlate_along(field, step[0], step[1], reach);
    });
    double deepest = 0;
    for (const Lags& direction : lags) {
        if (const auto width = width_of(direction, kNone))
            deepest = std::max(deepest, width->depth);
    }
    const Lags* narrowest = nullptr;
    double least = 0;
    for (const Lags& direction : lags) {
        const auto width = width_of(direction, kNone);
        if (!width || width->depth < kLeastDepth * deepest) continue;
        if (narrowest && width->px >= least) continue;
        narrowest = &direction;
        least = width->px;
    }
    if (!narrowest) return Measure::unknown("patches wider than the measure's cells");
    return Measure::known(least, error_of(*narrowest));
}

}  // namespace dapple
