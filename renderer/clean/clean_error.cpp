#include "clean/clean_error.h"

#include <algorithm>
#include <cmath>

#include "math/vec.h"

namespace dapple {

namespace {

constexpr int kErrorRadius = 6;  // px
// The links follow the noise of the film a little, and H has other noise. Found on films of known
// light (tests/clean/noise_test.cpp).
constexpr float kUnseen = 1.5F;

Plane sums_of_squares(const Plane& a) {
    return box_sums(make_plane(a.width, a.height, [&](size_t i) { return square(a[i]); }),
                    kErrorRadius);
}

Plane sums_of_squares(const Plane& a, const Plane& b) {
    return box_sums(make_plane(a.width, a.height, [&](size_t i) { return square(a[i] - b[i]); }),
                    kErrorRadius);
}

}  // namespace

Plane estimate_error(const LightAndNoise& film, const LightAndNoise& clean) {
    const Plane left = sums_of_squares(clean.noise);
    const Plane changed = sums_of_squares(film.light, clean.light);
    const Plane removed = sums_of_squares(film.noise, clean.noise);
    const Plane counts = box_sums(Plane(left.width, left.height, 1.0F), kErrorRadius);
    return make_plane(left.width, left.height, [&](size_t i) {
        const float blur = std::max(0.0F, changed[i] - removed[i]);
        return kUnseen * std::sqrt((left[i] + blur) / counts[i]);
    });
}

}  // namespace dapple
