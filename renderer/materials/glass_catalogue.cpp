#include "materials/glass_catalogue.h"

#include <array>
#include <cmath>

namespace dapple {

namespace {

struct Term {
    double b, c;  // c in µm²
};

// n² - 1 = c1 + Σ b L² / (L² - c), L in µm.
template <size_t kTerms>
double sellmeier(double um, double c1, const std::array<Term, kTerms>& terms) {
    const double l2 = um * um;
    double sum = 1 + c1;
    for (const Term& t : terms) sum += t.b * l2 / (l2 - t.c);
    return std::sqrt(sum);
}

double soda_lime(double um) {
    return 1.5130 - 0.003169 * um * um + 0.003962 / (um * um);
}

double borosilicate(double um) {
    constexpr std::array<Term, 2> kTerms{{{0.78657, 0.10856 * 0.10856}, {0.18285, 4.427 * 4.427}}};
    return sellmeier(um, 0.3542, kTerms);
}

double lead_crystal(double um) {
    constexpr std::array<Term, 3> kTerms{
        {{1.21640125, 0.00857807248}, {0.13366454, 0.0420143003}, {0.883399468, 107.59306}}};
    return sellmeier(um, 0, kTerms);
}

double silica(double um) {
    constexpr std::array<Term, 3> kTerms{{{0.6961663, 0.0684043 * 0.0684043},
                                          {0.4079426, 0.1162414 * 0.1162414},
                                          {0.8974794, 9.896161 * 9.896161}}};
    return sellmeier(um, 0, kTerms);
}

double acrylic(double um) {
    const double l2 = um * um;
    const double i2 = 1 / l2;
    return std::sqrt(2.1778 + 6.1209e-3 * l2 - 1.5004e-3 * l2 * l2 +
                     i2 * (2.3678e-2 + i2 * (-4.2137e-3 + i2 * (7.3417e-4 + i2 * -4.5042e-5))));
}

double water(double um) {
    constexpr std::array<Term, 4> kTerms{{{0.5684027565, 0.005101829712},
                                          {0.1726177391, 0.01821153936},
                                          {0.02086189578, 0.02620722293},
                                          {0.1130748688, 10.69792721}}};
    constexpr double kAir = 1.000272;  // 20 °C, 589 nm; varies by 5e-6 over the visible
    return sellmeier(um, 0, kTerms) / kAir;
}

// Cauchy's formula through n_d = 1.4700 and n_F - n_C = 0.0081.
double oil(double um) {
    return 1.45772 + 0.004240 / (um * um);
}

// Per metre, 380 to 780 nm by 10 nm.
using Table = std::array<double, 41>;
// clang-format would put one number on each line.
// clang-format off

constexpr Table kLowIronSodaLime = {4.3288, 2.0174, 1.4357, 1.5365, 1.6303, 1.7178, 1.4551,
    1.1874, 0.91543, 0.98258, 1.0459, 0.76219, 0.81857, 0.87176, 0.92218, 0.96998, 1.0151, 1.0583,
    1.4427, 1.4817, 1.8626, 1.8984, 2.2766, 2.3093, 2.6856, 3.0598, 3.4341, 3.4606, 3.8327, 4.205,
    4.5756, 4.6004, 4.9709, 5.3398, 5.709, 6.0783, 6.4462, 6.8143, 7.1827, 7.5512, 7.92};

constexpr Table kClearWindow = {19.63, 9.1122, 6.4308, 6.6878, 6.8188, 7.005, 6.6887, 5.3756,
    4.5594, 4.5453, 4.4061, 3.9853, 3.7498, 3.6935, 3.8231, 4.1943, 4.6263, 5.0266, 5.6751,
    6.7263, 7.7196, 8.526, 9.5253, 10.747, 12.104, 13.789, 15.225, 16.184, 17.342, 18.925, 20.272,
    21.108, 22.153, 23.876, 25.587, 27.285, 28.971, 30.662, 32.342, 34.027, 35.669};

constexpr Table kCrown517642 = {0.68586, 0.44243, 0.32129, 0.28094, 0.28098, 0.30548, 0.31412,
    0.29702, 0.28099, 0.27016, 0.25986, 0.25006, 0.24072, 0.22022, 0.20154, 0.18451, 0.16898,
    0.16456, 0.17571, 0.18767, 0.2005, 0.20979, 0.21957, 0.22988, 0.24073, 0.24064, 0.24061,
    0.24064, 0.24072, 0.21739, 0.19636, 0.17741, 0.16032, 0.15862, 0.15697, 0.15536, 0.1538,
    0.15229, 0.15082, 0.14938, 0.14799};

constexpr Table kFlint620364 = {1.5081, 0.93075, 0.60454, 0.46266, 0.36164, 0.30882, 0.27378,
    0.25666, 0.24072, 0.20221, 0.16994, 0.14288, 0.12018, 0.10995, 0.10064, 0.092144, 0.084398,
    0.080064, 0.080044, 0.08005, 0.08008, 0.080046, 0.080036, 0.080047, 0.08008, 0.088602,
    0.098054, 0.10854, 0.12018, 0.10855, 0.09806, 0.088606, 0.08008, 0.079867, 0.079671, 0.079491,
    0.079326, 0.079175, 0.079039, 0.078917, 0.078809};

constexpr Table kWater = {0.102, 0.077176, 0.058434, 0.049398, 0.041785, 0.036192, 0.032099,
    0.028484, 0.026911, 0.025438, 0.02481, 0.024965, 0.025133, 0.027534, 0.030176, 0.033872,
    0.03894, 0.044782, 0.056091, 0.070279, 0.097344, 0.14905, 0.22829, 0.24748, 0.26836, 0.28658,
    0.3014, 0.31706, 0.3531, 0.39332, 0.44705, 0.51845, 0.60139, 0.88623, 1.3062, 1.7525, 2.14,
    2.6138, 2.5257, 2.4409, 2.3052};

constexpr Table kAmberBottle = {1332.1, 1516.9, 1642.1, 1696, 1680.1, 1606.8, 1491.1, 1347.8,
    1192.2, 1035.5, 884.61, 744.67, 619.27, 509.75, 416.21, 337.95, 273.44, 220.97, 179.13,
    146.39, 120.75, 100.73, 85.527, 74.199, 65.854, 60.043, 55.677, 52.128, 49.763, 48.569,
    47.705, 46.755, 46.337, 46.842, 47.52, 48.328, 49.232, 50.225, 51.273, 52.379, 53.482};

constexpr Table kGreenBottle = {390.05, 275.08, 262.64, 311.26, 385.33, 459.08, 509.26, 522.17,
    500.8, 453.12, 387.76, 316.05, 249.01, 193.13, 152.07, 127.54, 119.12, 125.69, 146.52, 179.79,
    221.18, 266.87, 314.29, 359.95, 400.41, 433.81, 457.01, 470.09, 480.98, 497.43, 506.65,
    484.93, 437.82, 391.17, 354.51, 325.12, 299.18, 275.6, 254.4, 235.8, 219.74};

constexpr Table kCobaltBottle = {38.728, 24.901, 22.06, 24.005, 27.838, 34.476, 42.817, 55.083,
    74.904, 114.17, 175.23, 254.03, 332.99, 438.59, 552.39, 668.08, 691.12, 616.21, 566.67,
    646.07, 847.28, 1062.8, 1077.7, 1051.1, 1050.9, 1095.9, 1144.2, 1127.8, 1012.2, 825.42,
    607.01, 428.15, 325.99, 282.28, 267.75, 264.41, 265.44, 268.17, 270.44, 272.3, 273.3};

// clang-format on

Curve curve_of(const Table& table) {
    return Curve(std::vector<double>(table.begin(), table.end()), 380, 10);
}

const Table* tint_table(Tint tint) {
    switch (tint) {
        case Tint::kGreen:
            return &kGreenBottle;
        case Tint::kAmber:
            return &kAmberBottle;
        case Tint::kCobalt:
            return &kCobaltBottle;
        case Tint::kClear:
            break;
    }
    return nullptr;
}

}  // namespace

double refractive_index(GlassType glass, double nm) {
    const double um = nm * 1e-3;
    switch (glass) {
        case GlassType::kSodaLime:
            return soda_lime(um);
        case GlassType::kBorosilicate:
            return borosilicate(um);
        case GlassType::kLeadCrystal:
            return lead_crystal(um);
        case GlassType::kSilica:
            return silica(um);
        case GlassType::kAcrylic:
            return acrylic(um);
        case GlassType::kWater:
            return water(um);
        case GlassType::kOil:
            return oil(um);
        case GlassType::kAir:
            break;
    }
    return 1;
}

Curve refractive_index_curve(GlassType glass) {
    return Curve([glass](double nm) { return refractive_index(glass, nm); });
}

Curve absorption_curve(GlassType glass, Tint tint) {
    if (const Table* table = tint_table(tint)) return curve_of(*table);
    switch (glass) {
        case GlassType::kSodaLime:
            return curve_of(kLowIronSodaLime);
        case GlassType::kBorosilicate:
            return curve_of(kCrown517642);
        case GlassType::kLeadCrystal:
            return curve_of(kFlint620364);
        case GlassType::kWater:
            return curve_of(kWater);
        case GlassType::kSilica:
        case GlassType::kAcrylic:
        case GlassType::kOil:
        case GlassType::kAir:
            break;
    }
    return Curve(0.0F);
}

Curve window_absorption_curve(Tint tint) {
    const Table* table = tint_table(tint);
    return curve_of(table != nullptr ? *table : kClearWindow);
}

}  // namespace dapple
