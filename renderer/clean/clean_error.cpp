#include "clean/clean_error.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr int kRadius = 3;  // px

Plane squares(const Plane& a) {
    Plane result(a.width, a.height);
    for (size_t i = 0; i < a.values.size(); ++i) result[i] = a[i] * a[i];
    return result;
}

Plane square_differences(const Plane& a, const Plane& b) {
    Plane result(a.width, a.height);
    for (size_t i = 0; i < a.values.size(); ++i) result[i] = (a[i] - b[i]) * (a[i] - b[i]);
    return result;
}

Plane box_sums(const Plane& from) {
    Plane sums(from.width, from.height);
    make_box_sums(from, kRadius, sums);
    return sums;
}

}  // namespace

Plane estimate_error(const GuideImages& film, const GuideImages& clean) {
    const Plane left = box_sums(squares(clean.noise));
    const Plane changed = box_sums(square_differences(film.light, clean.light));
    const Plane removed = box_sums(square_differences(film.noise, clean.noise));
    const Plane counts = box_sums(Plane(left.width, left.height, 1.0F));
    Plane error(left.width, left.height);
    for (size_t i = 0; i < error.values.size(); ++i) {
        const float blur = std::max(0.0F, changed[i] - removed[i]);
        error[i] = std::sqrt((left[i] + blur) / counts[i]);
    }
    return error;
}

}  // namespace dapple
