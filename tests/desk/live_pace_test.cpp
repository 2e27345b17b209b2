// The width of frames while something is dragged.
#include "desk/live_pace.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr double kShape = 2.0 / 3;  // height over width

// A set whose frames take these times. Returns the width after some frames of a drag.
int width_after(int frames, LivePace& pace, double before_s, double per_pixel_s) {
    int width = 0;
    for (int i = 0; i < frames; ++i) {
        width = pace.width(960, kShape);
        const int pixels = static_cast<int>(width * width * kShape);
        pace.learn(pixels, before_s, pixels * per_pixel_s);
    }
    return width;
}

double time_at(int width, double before_s, double per_pixel_s) {
    return before_s + width * width * kShape * per_pixel_s;
}

}  // namespace

TEST_CASE("frames of a drag become as wide as their time allows") {
    for (const double before_s : {0.0, 0.03, 0.08}) {
        for (const double per_pixel_s : {1e-6, 3e-6, 8e-6}) {
            CAPTURE(before_s);
            CAPTURE(per_pixel_s);
            LivePace pace;
            const int width = width_after(12, pace, before_s, per_pixel_s);
            // A width stays as long as the one that fits is within a factor of 1.25.
            const bool fits = time_at(width, before_s, per_pixel_s) < 1.6 * LivePace::kFrameTime;
            CHECK((fits || width == LivePace::kNarrowest));
            const bool is_full =
                time_at(width * 3 / 2, before_s, per_pixel_s) > LivePace::kFrameTime;
            CHECK((is_full || width == LivePace::kWidest));
        }
    }
}

TEST_CASE("the width does not change from frame to frame") {
    LivePace pace;
    const int width = width_after(12, pace, 0.03, 3e-6);
    for (const double other : {2.6e-6, 3.4e-6, 3e-6}) {
        CHECK(width_after(1, pace, 0.03, other) == width);
    }
}

TEST_CASE("a machine that gets busy gets smaller frames, and larger ones again later") {
    LivePace pace;
    const int before = width_after(12, pace, 0.02, 2e-6);
    CHECK(width_after(12, pace, 0.02, 8e-6) < before);
    CHECK(width_after(12, pace, 0.02, 2e-6) > 0.8 * before);
}

TEST_CASE("frames are never wider than the frame at rest") {
    LivePace pace;
    CHECK(pace.width(48, kShape) == 48);
    width_after(12, pace, 0, 1e-7);
    CHECK(pace.width(960, kShape) == LivePace::kWidest);
    CHECK(pace.width(300, kShape) == 300);
}

}  // namespace dapple
