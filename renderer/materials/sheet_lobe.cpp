#include "materials/sheet_lobe.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <vector>

#include "base/kept_parts.h"
#include "math/warps.h"

namespace dapple {

namespace {

// exp(-x) I0(x) within 2e-7: Abramowitz and Stegun 1964, 9.8.1 and 9.8.2.
double scaled_bessel_i0(double x) {
    const auto polynomial = [](double y, std::initializer_list<double> coefficients) {
        double sum = 0;
        double power = 1;
        for (const double c : coefficients) {
            sum += c * power;
            power *= y;
        }
        return sum;
    };
    if (x < 3.75) {
        const double y = x * x / (3.75 * 3.75);
        return std::exp(-x) *
               polynomial(y, {1, 3.5156229, 3.0899424, 1.2067492, 0.2659732, 0.0360768, 0.0045813});
    }
    return polynomial(3.75 / x,
                      {0.39894228,
                       0.01328592,
                       0.00225319,
                       -0.00157565,
                       0.00916281,
                       -0.02057706,
                       0.02635537,
                       -0.01647633,
                       0.00392377}) /
           std::sqrt(x);
}

// ∫ k(γ) dφ for directions at θo and θi.
double ring(double concentration, double theta_o, double theta_i) {
    return 2 * kPi * std::exp(-concentration * (1 - std::cos(theta_o - theta_i))) *
           scaled_bessel_i0(concentration * std::sin(theta_o) * std::sin(theta_i));
}

// Midpoint rule over θi for one wo, within the lobe's reach.
struct Row {
    std::vector<float> cosines;
    std::vector<double> weights;  // ring · cosθ sinθ dθ
};

Row make_row(double concentration, double theta_o, int steps) {
    constexpr double kReach = 20;  // k < 2e-9 is left out
    const double reach = std::acos(std::max(-1.0, 1 - kReach / concentration));
    const double low = std::max(0.0, theta_o - reach);
    const double high = std::min(kPi / 2, theta_o + reach);
    const double step = (high - low) / steps;
    Row row;
    for (int i = 0; i < steps; ++i) {
        const double theta = low + (i + 0.5) * step;
        row.cosines.push_back(static_cast<float>(std::cos(theta)));
        row.weights.push_back(ring(concentration, theta_o, theta) * std::cos(theta) *
                              std::sin(theta) * step);
    }
    return row;
}

CosineTable make_scaling(double concentration, int steps) {
    constexpr int kSize = CosineTable::kSize;
    std::vector<Row> rows;
    CosineTable m;
    for (int a = 0; a < kSize; ++a) {
        rows.push_back(make_row(concentration, std::acos(CosineTable::cosine(a)), steps));
        // First guess: where the lobe is narrow and far from grazing, m² = cosθ ∫ k dω.
        m[a] =
            static_cast<float>(std::sqrt(2 * kPi / concentration * CosineTable::cosine(a)) + 0.1);
    }
    // Every round reduces the error, in the worst case to about half.
    constexpr int kRounds = 60;
    constexpr double kSettled = 1e-6;  // relative; the precision of floats
    double change = 1;
    for (int round = 0; round < kRounds && change > kSettled; ++round) {
        CosineTable next;
        change = 0;
        for (int a = 0; a < kSize; ++a) {
            const Row& row = rows[static_cast<size_t>(a)];
            double sum = 0;
            for (size_t i = 0; i < row.weights.size(); ++i) {
                sum += row.weights[i] / m.at(row.cosines[i]);
            }
            next[a] = static_cast<float>(std::sqrt(m[a] * sum));
            change = std::max(change, std::abs(static_cast<double>(next[a]) / m[a] - 1));
        }
        m = next;
    }
    return m;
}

// Intensity at the spread over the intensity along the normal, for light along the normal.
double intensity_at(double concentration, double spread) {
    const CosineTable m = make_scaling(concentration, 96);
    const double c = std::cos(spread);
    return std::exp(-concentration * (1 - c)) * c * m.at(1.0F) / m.at(static_cast<float>(c));
}

double concentration_for(double spread) {
    double low = 1e-3;
    double high = 2 / (1 - std::cos(spread));  // intensity below exp(-2)
    for (int i = 0; i < 20; ++i) {
        const double middle = std::sqrt(low * high);
        (intensity_at(middle, spread) > 0.5 ? low : high) = middle;
    }
    return std::sqrt(low * high);
}

float around_lobe_pdf(const SheetLobe& lobe, const Direction& a, const Direction& b) {
    const Vec3 chord = a - b;  // |chord|² = 2 (1 - cosγ), without cancellation
    return lobe.normaliser * std::exp(-0.5F * lobe.concentration * glm::dot(chord, chord));
}

}  // namespace

SheetLobe make_sheet_lobe(float spread) {
    SheetLobe lobe;
    if (spread >= static_cast<float>(kPi / 3 - 1e-3)) {
        for (int i = 0; i < CosineTable::kSize; ++i) lobe.m[i] = std::sqrt(kPiF);
        return lobe;
    }
    const double k = concentration_for(std::max(spread, kNarrowestSpread));
    lobe.m = make_scaling(k, 512);
    lobe.concentration = static_cast<float>(k);
    lobe.normaliser = static_cast<float>(k / (2 * kPi * (1 - std::exp(-2 * k))));
    lobe.cosine_share = static_cast<float>(1 / (1 + k));
    return lobe;
}

SheetLobe kept_sheet_lobe(float spread) {
    std::string key = "cloth ";
    add_to_key(key, spread);
    return *kept_or_made<SheetLobe>(
        key,
        [&] { return make_sheet_lobe(spread); },
        [](const SheetLobe& lobe) { return sizeof lobe; });
}

float eval(const SheetLobe& lobe, const Direction& wo, const Direction& wi) {
    const Vec3 chord = mirrored(wo) - wi;
    return std::exp(-0.5F * lobe.concentration * glm::dot(chord, chord)) /
           (lobe.m.at(wo.z) * lobe.m.at(wi.z));
}

// Draws around the straight direction that fall below the surface are mirrored up.
float pdf(const SheetLobe& lobe, const Direction& wo, const Direction& wi) {
    const float cosine = lobe.cosine_share * pdf_cosine_hemisphere(wi.z);
    if (lobe.concentration == 0.0F) return cosine;
    const Direction straight = mirrored(wo);
    return cosine + (1.0F - lobe.cosine_share) * (around_lobe_pdf(lobe, straight, wi) +
                                                  around_lobe_pdf(lobe, straight, flipped(wi)));
}

Direction sample(const SheetLobe& lobe, const Direction& wo, const Vec3& u) {
    if (u.z < lobe.cosine_share) return sample_cosine_hemisphere(u.x, u.y);
    const float k = lobe.concentration;
    const float one_minus_cos = -std::log1p(u.x * std::expm1(-2.0F * k)) / k;
    // With u = 1 sample_cone returns a direction on the edge of the cone.
    const Frame frame(mirrored(wo));
    const Direction wi = frame.to_world(sample_cone(one_minus_cos, 1.0F, u.y));
    return wi.z < 0.0F ? flipped(wi) : wi;
}

}  // namespace dapple
