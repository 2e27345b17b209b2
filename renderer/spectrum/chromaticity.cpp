#include "spectrum/chromaticity.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/units.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

constexpr double kMiredTimesKelvin = 1e6;

// A point of the Planckian locus at a reciprocal temperature in mired, and its derivative.
struct LocusPoint {
    Uv at;
    Uv slope;  // d(u, v)/d(mired): towards warmer light, so u grows
};

// With f = 1/(exp(x) - 1), x = c2/(λT): S ~ f/λ⁵ and dS/dx ~ -(f + f²)/λ⁵.
LocusPoint locus_point(double mired) {
    const Observer& o = cie_1931();
    Xyz sum(0.0);
    Xyz slope(0.0);
    for (int i = 0; i < Curve::kSize; ++i) {
        const double x_per_mired = kSecondRadiation / (Curve::nm(i) * kMiredTimesKelvin);
        const double f = 1.0 / std::expm1(x_per_mired * mired);
        const double power = f * std::pow(kMinWavelength / Curve::nm(i), 5);
        const Xyz observer(o.x[i], o.y[i], o.z[i]);
        sum += power * observer;
        slope -= power * (1.0 + f) * x_per_mired * observer;
    }
    const Xyz weights(1.0, 15.0, 3.0);
    const double d = glm::dot(weights, sum);
    const double d_slope = glm::dot(weights, slope);
    const Uv at{4.0 * sum.x / d, 6.0 * sum.y / d};
    return {at, {(4.0 * slope.x - at.u * d_slope) / d, (6.0 * slope.y - at.v * d_slope) / d}};
}

// Unit normal of the locus, on the side above it.
Uv normal_of(const LocusPoint& p) {
    const double length = std::hypot(p.slope.u, p.slope.v);
    return {-p.slope.v / length, p.slope.u / length};
}

double dot(Uv a, Uv b) {
    return a.u * b.u + a.v * b.v;
}
Uv operator-(Uv a, Uv b) {
    return {a.u - b.u, a.v - b.v};
}

constexpr double kMiredStep = 15.0;

const std::vector<Uv>& locus_table() {
    static const std::vector<Uv> table = [] {
        std::vector<Uv> points;
        for (double m = kMiredTimesKelvin / kMaxCct; m <= kMiredTimesKelvin / kMinCct;
             m += kMiredStep) {
            points.push_back(locus_point(m).at);
        }
        return points;
    }();
    return table;
}

// The table point nearest to `uv`, in mired.
double nearest_table_mired(Uv uv) {
    const std::vector<Uv>& table = locus_table();
    const auto distance = [&](Uv p) { return dot(uv - p, uv - p); };
    const auto nearest =
        std::min_element(table.begin(), table.end(), [&](const Uv& a, const Uv& b) {
            return distance(a) < distance(b);
        });
    return kMiredTimesKelvin / kMaxCct +
           kMiredStep * static_cast<double>(std::distance(table.begin(), nearest));
}

// The mired at which the locus is at right angles to the line to `uv`: the nearest point.
double nearest_mired(Uv uv) {
    const double start = nearest_table_mired(uv);
    double low = std::max(start - kMiredStep, kMiredTimesKelvin / kMaxCct);
    double high = std::min(start + kMiredStep, kMiredTimesKelvin / kMinCct);
    while (high - low > 1e-9 * high) {
        const double middle = 0.5 * (low + high);
        const LocusPoint p = locus_point(middle);
        (dot(uv - p.at, p.slope) > 0 ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

CctDuv nearest_on_locus(Uv uv) {
    const double mired = nearest_mired(uv);
    const LocusPoint p = locus_point(mired);
    return {kMiredTimesKelvin / mired, dot(uv - p.at, normal_of(p))};
}

double mired_of(double kelvin) {
    return kMiredTimesKelvin / std::clamp(kelvin, kMinCct, kMaxCct);
}

}  // namespace

Xy xy_of(const Xyz& xyz) {
    const double sum = xyz.x + xyz.y + xyz.z;
    return {xyz.x / sum, xyz.y / sum};
}

Xy xy_of(Uv uv) {
    const double d = 2.0 * uv.u - 8.0 * uv.v + 4.0;
    return {3.0 * uv.u / d, 2.0 * uv.v / d};
}

Uv uv_1960(const Xyz& xyz) {
    const double d = xyz.x + 15.0 * xyz.y + 3.0 * xyz.z;
    return {4.0 * xyz.x / d, 6.0 * xyz.y / d};
}

Uv uv_1960(Xy xy) {
    return uv_1960(xyz_of(xy));
}

Xyz xyz_of(Xy xy) {
    return Xyz(xy.x / xy.y, 1.0, (1.0 - xy.x - xy.y) / xy.y);
}

CctDuv cct_duv_of(const Xyz& xyz) {
    return nearest_on_locus(uv_1960(xyz));
}
CctDuv cct_duv_of(Xy xy) {
    return nearest_on_locus(uv_1960(xy));
}

Uv planckian_uv(double kelvin) {
    return locus_point(mired_of(kelvin)).at;
}
Xy planckian_xy(double kelvin) {
    return xy_of(planckian_uv(kelvin));
}

DuvLine::DuvLine(double cct_k) {
    const LocusPoint p = locus_point(mired_of(cct_k));
    at_locus_ = p.at;
    normal_ = normal_of(p);
}

Xy DuvLine::at(double duv) const {
    return xy_of(Uv{at_locus_.u + duv * normal_.u, at_locus_.v + duv * normal_.v});
}

Xy xy_from_cct_duv(double cct_k, double duv) {
    return DuvLine(cct_k).at(duv);
}

}  // namespace dapple
