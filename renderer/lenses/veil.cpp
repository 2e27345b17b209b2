#include "lenses/veil.h"

#include <array>
#include <cmath>

#include "base/units.h"

namespace dapple {

namespace {

struct VeilTerm {
    double weight, radius, exponent;
};
constexpr std::array<VeilTerm, 2> kTerms{{{0.5, 0.1, 2.6}, {0.5, 5, 3}}};

constexpr int kMostSamples = 32;  // across a cell at the point itself

}  // namespace

double Veil::beyond(double radius) const {
    double sum = 0;
    for (const VeilTerm& t : kTerms) {
        const double r = radius / (t.radius * scale_);
        sum += t.weight * std::pow(1 + r * r, 1 - t.exponent / 2);
    }
    return sum;
}

double Veil::scattered_for(double index) const {
    return index / beyond(spot_radius());
}

double Veil::density(double radius) const {
    double sum = 0;
    for (const VeilTerm& t : kTerms) {
        const double r0 = t.radius * scale_;
        const double r = radius / r0;
        sum += t.weight * (t.exponent - 2) / (2 * kPi * r0 * r0) *
               std::pow(1 + r * r, -t.exponent / 2);
    }
    return sum;
}

double Veil::cell_density(double x, double y, double width) const {
    const double cells = std::hypot(x, y) / width;
    const int n = cells > 8 ? 1 : cells > 2 ? 4 : kMostSamples;
    double sum = 0;
    for (int j = 0; j < n; ++j) {
        for (int i = 0; i < n; ++i) {
            const double u = x + width * ((i + 0.5) / n - 0.5);
            const double v = y + width * ((j + 0.5) / n - 0.5);
            sum += density(std::hypot(u, v));
        }
    }
    return sum / (n * n);
}

}  // namespace dapple
