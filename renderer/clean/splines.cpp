#include "clean/splines.h"

#include <algorithm>

#include "math/vec.h"

namespace dapple {

namespace {

// `place`: in the middle one of three pixels, -0.5 to 0.5.
std::array<float, 3> spline_weights(float place) {
    return {0.5F * square(0.5F - place), 0.75F - square(place), 0.5F * square(0.5F + place)};
}

}  // namespace

Splines::Splines(int width, int height, int step) : width_(width), height_(height), step_(step) {
    for (int i = 0; i < step; ++i) {
        weights_.push_back(
            spline_weights((static_cast<float>(i) + 0.5F) / static_cast<float>(step) - 0.5F));
    }
}

Around Splines::around(int x, int y) const {
    const std::array<float, 3>& across = weights_[static_cast<size_t>(x % step_)];
    const std::array<float, 3>& down = weights_[static_cast<size_t>(y % step_)];
    Around all;
    all.own = static_cast<size_t>(y / step_ * width_ + x / step_);
    for (int v = 0; v < 3; ++v) {
        const int row = std::clamp(y / step_ + v - 1, 0, height_ - 1);
        for (int u = 0; u < 3; ++u) {
            const int column = std::clamp(x / step_ + u - 1, 0, width_ - 1);
            all.add(static_cast<size_t>(row * width_ + column),
                    across[static_cast<size_t>(u)] * down[static_cast<size_t>(v)]);
        }
    }
    return all;
}

}  // namespace dapple
