// Eight samples of a spectrum at the wavelengths that a pass shares (one vector register).
// What a value means (radiance, reflectance, throughput) is said where it is used.
#pragma once

#include <algorithm>
#include <cmath>

namespace dapple {

inline constexpr int kSpectrumSize = 8;

struct alignas(32) Spectrum {
    float v[kSpectrumSize];

    Spectrum() : Spectrum(0.0F) {}
    explicit Spectrum(float value) {
        for (float& x : v) x = value;
    }

    float operator[](int i) const { return v[i]; }
    float& operator[](int i) { return v[i]; }

    Spectrum& operator+=(const Spectrum& b) {
        for (int i = 0; i < kSpectrumSize; ++i) v[i] += b.v[i];
        return *this;
    }
    Spectrum& operator-=(const Spectrum& b) {
        for (int i = 0; i < kSpectrumSize; ++i) v[i] -= b.v[i];
        return *this;
    }
    Spectrum& operator*=(const Spectrum& b) {
        for (int i = 0; i < kSpectrumSize; ++i) v[i] *= b.v[i];
        return *this;
    }
    Spectrum& operator*=(float b) {
        for (float& x : v) x *= b;
        return *this;
    }
    friend Spectrum operator+(Spectrum a, const Spectrum& b) { return a += b; }
    friend Spectrum operator-(Spectrum a, const Spectrum& b) { return a -= b; }
    friend Spectrum operator*(Spectrum a, const Spectrum& b) { return a *= b; }
    friend Spectrum operator*(Spectrum a, float b) { return a *= b; }
    friend Spectrum operator*(float a, Spectrum b) { return b *= a; }
    friend Spectrum operator/(Spectrum a, float b) { return a *= 1.0F / b; }

    float max() const {
        float m = v[0];
        for (int i = 1; i < kSpectrumSize; ++i) m = std::max(m, v[i]);
        return m;
    }
    float sum() const {
        float s = 0;
        for (const float x : v) s += x;
        return s;
    }
    float mean() const { return sum() / kSpectrumSize; }
    // No light at all; what is not a number is not black.
    bool is_black() const {
        for (const float x : v) {
            if (x != 0.0F) return false;
        }
        return true;
    }
    bool is_finite() const { return std::isfinite(sum()); }
};

inline float dot(const Spectrum& a, const Spectrum& b) {
    return (a * b).sum();
}

inline Spectrum exp(const Spectrum& a) {
    Spectrum r;
    for (int i = 0; i < kSpectrumSize; ++i) r.v[i] = std::exp(a.v[i]);
    return r;
}

}  // namespace dapple
