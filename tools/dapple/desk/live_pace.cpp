#include "desk/live_pace.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr int kWidthStep = 16;        // px
constexpr double kKeptWithin = 1.25;  // a width stays while the one that fits is within this factor
constexpr double kMostGrowth = 2;     // of the pixels, from one frame to the next

}  // namespace

int LivePace::width(int widest, double height_over_width) {
    if (pixels_ > 0) {
        const double fits = std::sqrt(pixels_ / height_over_width);
        const bool keeps = fits < width_ * kKeptWithin && fits > width_ / kKeptWithin;
        if (!keeps) width_ = static_cast<int>(fits) / kWidthStep * kWidthStep;
    }
    width_ = std::clamp(width_, kNarrowest, kWidest);
    return std::min(width_, widest);
}

void LivePace::learn(int pixels, double before_s, double for_pixels_s) {
    const double left = std::max(kFrameTime - before_s, kFrameTime / 4);
    const double fits = pixels * left / std::max(for_pixels_s, 1e-6);
    pixels_ = std::min(fits, kMostGrowth * pixels);
}

}  // namespace dapple
