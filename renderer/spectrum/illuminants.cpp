#include "spectrum/illuminants.h"

#include <cassert>
#include <cmath>

#include "base/units.h"

namespace dapple {

namespace {

constexpr double kReferenceNm = 560.0;

double planck_relative(double nm, double c2, double kelvin) {
    return std::pow(kReferenceNm / nm, 5) * std::expm1(c2 / (kReferenceNm * kelvin)) /
           std::expm1(c2 / (nm * kelvin));
}

// Daylight components S0, S1, S2 every 10 nm from 380 to 780 nm, linear between: CIE 015:2018,
// after Judd, MacAdam and Wyszecki 1964.
constexpr int kComponentRows = 41;
constexpr double kComponents[kComponentRows][3] = {
    {63.4, 38.5, 3.0},   {65.8, 35.0, 1.2},   {94.8, 43.4, -1.1},  {104.8, 46.3, -0.5},
    {105.9, 43.9, -0.7}, {96.8, 37.1, -1.2},  {113.9, 36.7, -2.6}, {125.6, 35.9, -2.9},
    {125.5, 32.6, -2.8}, {121.3, 27.9, -2.6}, {121.3, 24.3, -2.6}, {113.5, 20.1, -1.8},
    {113.1, 16.2, -1.5}, {110.8, 13.2, -1.3}, {106.5, 8.6, -1.2},  {108.8, 6.1, -1.0},
    {105.3, 4.2, -0.5},  {104.4, 1.9, -0.3},  {100.0, 0.0, 0.0},   {96.0, -1.6, 0.2},
    {95.1, -3.5, 0.5},   {89.1, -3.5, 2.1},   {90.5, -5.8, 3.2},   {90.3, -7.2, 4.1},
    {88.4, -8.6, 4.7},   {84.0, -9.5, 5.1},   {85.1, -10.9, 6.7},  {81.9, -10.7, 7.3},
    {82.6, -12.0, 8.6},  {84.9, -14.0, 9.8},  {81.3, -13.6, 10.2}, {71.9, -12.0, 8.3},
    {74.3, -13.3, 9.6},  {76.4, -12.9, 8.5},  {63.3, -10.6, 7.0},  {71.7, -11.6, 7.6},
    {77.0, -12.2, 8.0},  {65.2, -10.2, 6.7},  {47.7, -7.8, 5.2},   {68.6, -11.2, 7.4},
    {65.0, -10.4, 6.8},
};

double daylight_locus_x(double t) {
    if (t <= 7000.0) return -4.6070e9 / (t * t * t) + 2.9678e6 / (t * t) + 99.11 / t + 0.244063;
    return -2.0064e9 / (t * t * t) + 1.9018e6 / (t * t) + 247.48 / t + 0.237040;
}

double rounded_to_thousandths(double m) {
    return std::round(m * 1000.0) / 1000.0;
}

}  // namespace

Curve planck(double kelvin) {
    assert(kelvin > 0);
    return Curve([&](double nm) { return planck_relative(nm, kSecondRadiation, kelvin); });
}

Curve daylight(double cct_k) {
    assert(cct_k >= 4000.0 && cct_k <= 25000.0);
    const double x = daylight_locus_x(cct_k);
    const double y = -3.000 * x * x + 2.870 * x - 0.275;
    const double m = 0.0241 + 0.2562 * x - 0.7341 * y;
    const double m1 = rounded_to_thousandths((-1.3515 - 1.7703 * x + 5.9114 * y) / m);
    const double m2 = rounded_to_thousandths((0.0300 - 31.4424 * x + 30.0717 * y) / m);
    std::vector<double> table;
    for (const auto& s : kComponents) table.push_back((s[0] + m1 * s[1] + m2 * s[2]) / 100.0);
    return Curve(table, kMinWavelength, 10.0);
}

Curve daylight_d65() {
    return daylight(6500.0 * 1.4388 / 1.4380);
}

Curve illuminant_a() {
    return Curve([](double nm) { return planck_relative(nm, 1.435e7, 2848.0); });
}

Curve equal_energy() {
    return Curve(1.0F);
}

}  // namespace dapple
