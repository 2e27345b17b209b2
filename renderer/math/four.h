// A Four is four floats in one register. It holds either one vector (x, y, z and an unused fourth)
// or one number for each of four vectors (see FourVectors). Use it only where the code limits the
// speed of every step of every walk; use Vec3 (math/vec.h) everywhere else.
#pragma once

#include <algorithm>
#include <cmath>

#include "math/vec.h"

namespace dapple {

using Four = float __attribute__((vector_size(16)));

inline Four four(const Vec3& v) {
    return Four{v.x, v.y, v.z, 0};
}
inline Vec3 three(const Four& v) {
    return Vec3(v[0], v[1], v[2]);
}
inline float dot(const Four& a, const Four& b) {
    const Four products = a * b;
    return products[0] + products[1] + products[2];
}
inline Four cross(const Four& a, const Four& b) {
    const Four a_turned = __builtin_shufflevector(a, a, 1, 2, 0, 3);
    const Four b_turned = __builtin_shufflevector(b, b, 1, 2, 0, 3);
    const Four turned = a * b_turned - a_turned * b;
    return __builtin_shufflevector(turned, turned, 1, 2, 0, 3);
}
inline Four max_of(const Four& a, const Four& b) {
    return a > b ? a : b;
}
inline Four abs(const Four& v) {
    return max_of(v, -v);
}
inline float largest(const Four& v) {
    return std::max(std::max(v[0], v[1]), v[2]);
}

// Four vectors. Each Four holds one coordinate of all of them, so that one operation works on all.
struct FourVectors {
    Four x{}, y{}, z{};

    Vec3 at(size_t i) const { return Vec3(x[i], y[i], z[i]); }
    void put(size_t i, const Vec3& v) {
        x[i] = v.x;
        y[i] = v.y;
        z[i] = v.z;
    }
    FourVectors& operator+=(const FourVectors& b) {
        x += b.x;
        y += b.y;
        z += b.z;
        return *this;
    }
    FourVectors& operator-=(const FourVectors& b) {
        x -= b.x;
        y -= b.y;
        z -= b.z;
        return *this;
    }
    friend FourVectors operator+(FourVectors a, const FourVectors& b) { return a += b; }
    friend FourVectors operator-(FourVectors a, const FourVectors& b) { return a -= b; }
    friend FourVectors operator*(float s, const FourVectors& a) {
        return {s * a.x, s * a.y, s * a.z};
    }
};

// One vector times each of four numbers.
inline FourVectors operator*(const Four& s, const Vec3& v) {
    return {s * v.x, s * v.y, s * v.z};
}
inline Four dot(const FourVectors& a, const Vec3& b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

}  // namespace dapple
