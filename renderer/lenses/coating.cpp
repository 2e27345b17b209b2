#include "lenses/coating.h"

#include <algorithm>
#include <cmath>
#include <complex>

#include "base/units.h"

namespace dapple {

namespace {

using Complex = std::complex<double>;

constexpr double kDesignWavelength = 550;  // nm
constexpr double kLowIndex = 1.38;         // magnesium fluoride
constexpr double kHighIndex = 2.10;

ThinLayer layer(double index, double waves) {
    return {index, waves * kDesignWavelength / index};
}

enum class Polarised { kS, kP };

// √(1 - (n₀ sinθ₀/n)²); imaginary beyond total reflection.
Complex cos_in(double index, double sine) {
    return std::sqrt(Complex(1 - sine * sine / (index * index)));
}

Complex admittance(double index, const Complex& cos_angle, Polarised polarised) {
    return polarised == Polarised::kS ? index * cos_angle : index / cos_angle;
}

struct Amplitudes {
    Complex first;  // η of the first medium
    Complex last;
    Complex b{1}, c{0};
};

Amplitudes solve(const std::vector<ThinLayer>& layers,
                 double from,
                 double to,
                 double cos_from,
                 double nm,
                 Polarised polarised) {
    const double sine = from * std::sqrt(std::max(0.0, 1 - cos_from * cos_from));
    Amplitudes a;
    a.first = admittance(from, cos_from, polarised);
    a.last = admittance(to, cos_in(to, sine), polarised);
    a.c = a.last;
    for (size_t k = layers.size(); k-- > 0;) {
        const Complex cos_angle = cos_in(layers[k].index, sine);
        const Complex eta = admittance(layers[k].index, cos_angle, polarised);
        const Complex delta = 2 * kPi * layers[k].index * layers[k].thickness * cos_angle / nm;
        const Complex i_sin = Complex(0, 1) * std::sin(delta);
        const Complex b = std::cos(delta) * a.b + i_sin / eta * a.c;
        a.c = i_sin * eta * a.b + std::cos(delta) * a.c;
        a.b = b;
    }
    return a;
}

double reflected(const Amplitudes& a) {
    return std::norm((a.first * a.b - a.c) / (a.first * a.b + a.c));
}

double transmitted(const Amplitudes& a) {
    return 4 * a.first.real() * a.last.real() / std::norm(a.first * a.b + a.c);
}

constexpr double kGrazing = 1e-6;

}  // namespace

std::vector<ThinLayer> make_layers(LensCoating coating, double from, double to) {
    if (coating == LensCoating::kNone || (from > 1.01 && to > 1.01)) return {};
    const double glass = std::max(from, to);
    if (coating == LensCoating::kSingle) {
        return {layer(std::max(std::sqrt(from * to), kLowIndex), 0.25)};
    }
    std::vector<ThinLayer> layers{
        layer(kLowIndex, 0.25), layer(kHighIndex, 0.5), layer(kLowIndex * std::sqrt(glass), 0.25)};
    if (from > to) std::reverse(layers.begin(), layers.end());
    return layers;
}

PolarisedPair layer_reflectance(
    const std::vector<ThinLayer>& layers, double from, double to, double cos_from, double nm) {
    const double cosine = std::max(cos_from, kGrazing);
    return {reflected(solve(layers, from, to, cosine, nm, Polarised::kS)),
            reflected(solve(layers, from, to, cosine, nm, Polarised::kP))};
}

PolarisedPair layer_transmittance(
    const std::vector<ThinLayer>& layers, double from, double to, double cos_from, double nm) {
    const double cosine = std::max(cos_from, kGrazing);
    return {transmitted(solve(layers, from, to, cosine, nm, Polarised::kS)),
            transmitted(solve(layers, from, to, cosine, nm, Polarised::kP))};
}

}  // namespace dapple
