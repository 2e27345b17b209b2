#include "spectrum/curve.h"

#include <algorithm>
#include <cmath>

namespace dapple {

Curve::Curve(const std::function<double(double nm)>& f) {
    for (int i = 0; i < kSize; ++i) (*this)[i] = static_cast<float>(f(nm(i)));
}

Curve::Curve(const std::vector<double>& table, double first_nm, double step_nm) {
    const auto last = static_cast<double>(table.size() - 1);
    for (int i = 0; i < kSize; ++i) {
        const double x = std::clamp((nm(i) - first_nm) / step_nm, 0.0, last);
        const auto k = static_cast<size_t>(std::min(std::floor(x), std::max(0.0, last - 1)));
        const double next = k + 1 < table.size() ? table[k + 1] : table[k];
        (*this)[i] = static_cast<float>(std::lerp(table[k], next, x - static_cast<double>(k)));
    }
}

float Curve::at(float nm) const {
    const float x =
        std::clamp(nm - static_cast<float>(kMinWavelength), 0.0F, static_cast<float>(kSize - 1));
    const int k = std::min(static_cast<int>(x), kSize - 2);
    return std::lerp((*this)[k], (*this)[k + 1], x - static_cast<float>(k));
}

Spectrum Curve::at(const Wavelengths& wavelengths) const {
    Spectrum s;
    for (int j = 0; j < kSpectrumSize; ++j) s[j] = at(wavelengths.nm[j]);
    return s;
}

Curve& Curve::operator*=(double scale) {
    for (float& v : values_) v = static_cast<float>(v * scale);
    return *this;
}

Curve& Curve::operator*=(const Curve& b) {
    for (int i = 0; i < kSize; ++i) (*this)[i] *= b[i];
    return *this;
}

Curve& Curve::operator+=(const Curve& b) {
    for (int i = 0; i < kSize; ++i) (*this)[i] += b[i];
    return *this;
}

double integrate(const Curve& a, const Curve& b) {
    double sum = 0;
    for (int i = 0; i < Curve::kSize; ++i) sum += static_cast<double>(a[i]) * b[i];
    return sum;
}

}  // namespace dapple
