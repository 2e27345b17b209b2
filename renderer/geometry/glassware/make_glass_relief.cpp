#include "geometry/glassware/make_glass_relief.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/random.h"

namespace dapple {

namespace {

// A value with its derivatives along u and v.
struct Height {
    double value = 0, u = 0, v = 0;
};

Height ribbed(double u) {
    return {0.5 * (1 - std::cos(2 * kPi * u)), kPi * std::sin(2 * kPi * u), 0};
}

Height reeded(double u) {
    const double from_crest = u - std::round(u);
    const double side = from_crest < 0 ? -1 : 1;
    const double a = std::abs(from_crest);
    if (a <= kReed) return {2 * a * a / kReed, side * 4 * a / kReed, 0};
    const double left = 0.5 - a;
    return {1 - 2 * left * left / kGroove, side * 4 * left / kGroove, 0};
}

// The column from 0 to count - 1, where the pattern closes around a solid.
int64_t wrapped(int64_t column, int count) {
    return count > 0 ? ((column % count) + count) % count : column;
}

struct Dent {
    double u, v, radius;
};

// One dent for each cell of a lattice. Every second row is shifted by half a cell.
Dent dent_of(int64_t column, int64_t row, const Relief& relief) {
    const auto name =
        mix_bits(static_cast<uint64_t>(wrapped(column, relief.count)), static_cast<uint64_t>(row));
    RandomStream random(relief.seed, 0, name, Purpose::kGlass);
    const double shift = row % 2 == 0 ? 0 : 0.5;
    const double u = static_cast<double>(column) + shift + 0.25 + 0.5 * random.next();
    const double v = static_cast<double>(row) + 0.25 + 0.5 * random.next();
    return {u, v, 0.75 + 0.2 * random.next()};
}

Height hammered(double u, double v, const Relief& relief) {
    Height flat{1, 0, 0};  // Π (1 - w)
    const auto column = static_cast<int64_t>(std::floor(u));
    const auto row = static_cast<int64_t>(std::floor(v));
    for (int64_t j = row - 1; j <= row + 1; ++j) {
        for (int64_t i = column - 2; i <= column + 1; ++i) {
            const Dent dent = dent_of(i, j, relief);
            const double du = (u - dent.u) / dent.radius;
            const double dv = (v - dent.v) / dent.radius;
            const double inside = 1 - du * du - dv * dv;
            if (inside <= 0) continue;
            const double w = inside * inside * inside;
            const double slope = -6 * inside * inside / dent.radius;
            flat.u = flat.u * (1 - w) - flat.value * slope * du;
            flat.v = flat.v * (1 - w) - flat.value * slope * dv;
            flat.value *= 1 - w;
        }
    }
    return {1 - flat.value, -flat.u, -flat.v};
}

constexpr int kWaves = 10;

// A wave of E60: its periods along u and v, and its phase at the origin.
struct Wave {
    double k, l, phase;
};

std::array<Wave, kWaves> waves_of(const Relief& relief) {
    RandomStream random(relief.seed, 0, 0, Purpose::kGlass);
    std::array<Wave, kWaves> waves{};
    for (int i = 0; i < kWaves; ++i) {
        const double turn = kPi * (i + static_cast<double>(random.next())) / kWaves;
        const double length = 1 + 2 * random.next();  // in periods; the shortest has one
        const double phase = 2 * kPi * random.next();
        double k = std::cos(turn) / length;
        if (relief.count > 0) k = std::round(k * relief.count) / relief.count;
        waves[static_cast<size_t>(i)] = {k, std::sin(turn) / length, phase};
    }
    return waves;
}

Height wavy(double u, double v, const Relief& relief) {
    Height sum{0.5, 0, 0};
    for (const Wave& wave : waves_of(relief)) {
        const double phase = 2 * kPi * (wave.k * u + wave.l * v) + wave.phase;
        sum.value += 0.5 / kWaves * std::cos(phase);
        sum.u -= kPi * wave.k / kWaves * std::sin(phase);
        sum.v -= kPi * wave.l / kWaves * std::sin(phase);
    }
    return sum;
}

Height pattern(double u, double v, const Relief& relief) {
    switch (relief.surface) {
        case GlassSurface::kRibbed:
            return ribbed(u);
        case GlassSurface::kReeded:
            return reeded(u);
        case GlassSurface::kHammered:
            return hammered(u, v, relief);
        case GlassSurface::kWavy:
            return wavy(u, v, relief);
        case GlassSurface::kPlain:
            break;
    }
    return {};
}

// A raised cosine from 0 at an end to 1 at `fade` from it, and its slope; `inside` m from the end.
std::pair<double, double> fade_in(double inside, double fade) {
    const double x = std::clamp(inside / fade, 0.0, 1.0);
    return {0.5 * (1 - std::cos(kPi * x)), 0.5 * kPi / fade * std::sin(kPi * x)};
}

// The same between two ends.
std::pair<double, double> fade_between(double low, double at, double high, double fade) {
    if (at - low < high - at) return fade_in(at - low, fade);
    const auto [share, slope] = fade_in(high - at, fade);
    return {share, -slope};
}

}  // namespace

ReliefPoint Relief::at(double x, double y) const {
    if (!any()) return {};
    const Height g = pattern((x - twist * (y - low)) / period, (y - low) / rise, *this);
    const auto [fy, fy_slope] = fade_between(low, y, high, fade);
    const auto [fx, fx_slope] =
        count > 0 ? std::pair(1.0, 0.0) : fade_between(-half, x, half, fade);
    const double g_x = g.u / period;
    const double g_y = g.v / rise - g_x * twist;
    return {depth * fx * fy * g.value,
            depth * fy * (fx_slope * g.value + fx * g_x),
            depth * fx * (fy_slope * g.value + fy * g_y)};
}

double Relief::steepest(double radius) const {
    const double length = period * radius;
    const double steepest_g = surface == GlassSurface::kRibbed ? kPi : 4;
    return depth * steepest_g / length;
}

double Relief::bend() const {
    // The slope of (1 - q²)³ bends by at most 48 over the cube of the radius, which is at least
    // 0.75 periods.
    double most = 48 / std::pow(0.75, 3);
    if (surface == GlassSurface::kWavy) {
        most = 0;  // that of each cosine by (2π)³ over the cube of its length
        for (const Wave& wave : waves_of(*this)) {
            most += 0.5 / kWaves * std::pow(2 * kPi * std::hypot(wave.k, wave.l), 3);
        }
    }
    return depth * most / std::pow(rise, 3);
}

}  // namespace dapple
