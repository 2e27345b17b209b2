// The size of quick frames on the desk.
#include "desk/live_pace.h"

#include <doctest/doctest.h>

#include <algorithm>

namespace dapple {

namespace {

constexpr double kShape = 2.0 / 3;  // height over width

struct Machine {
    double before_s = 0;
    double pixel_s = 0;  // for a pixel of the light with those of the picture in it

    double time_of(const QuickSize& size) const {
        return before_s + pixel_s * size.light_width * size.light_width * kShape;
    }
};

// The size after some frames of a drag.
QuickSize size_after(int frames, LivePace& pace, const Machine& machine, int widest = 960) {
    QuickSize size;
    for (int i = 0; i < frames; ++i) {
        size = pace.drag_size(widest, kShape);
        pace.learn(size, kShape, machine.before_s, machine.time_of(size) - machine.before_s);
    }
    return size;
}

}  // namespace

TEST_CASE("light becomes as fine as the time of a frame allows, then the picture smaller") {
    int last = 1000;
    for (const double pixel_s : {1e-6, 8e-6, 2e-5, 4e-5, 8e-5, 3e-4}) {
        CAPTURE(pixel_s);
        LivePace pace;
        const Machine machine{0.02, pixel_s};
        const QuickSize size = size_after(12, pace, machine);
        const bool is_coarsest = size.light_width < 2 * LivePace::kLeastLight;
        // A size stays while its time is within a factor of 1.25.
        CHECK((machine.time_of(size) < 1.3 * LivePace::kFrameTime || is_coarsest));
        CHECK(size.light_width <= last);
        last = size.light_width;
    }
    LivePace fast;
    CHECK(size_after(12, fast, {0.02, 1e-6}) == QuickSize{160, 3});
    LivePace slow;
    CHECK(size_after(12, slow, {0.02, 3e-4}).width() < LivePace::kWidest);
}

TEST_CASE("the size does not change from frame to frame") {
    LivePace pace;
    const QuickSize size = size_after(12, pace, {0.03, 2e-5});
    for (const double other : {1.8e-5, 2.2e-5, 2e-5}) {
        CHECK(size_after(1, pace, {0.03, other}) == size);
    }
}

TEST_CASE("a machine that gets busy gets coarser light, and finer light again later") {
    LivePace pace;
    const QuickSize before = size_after(12, pace, {0.02, 1e-5});
    CHECK(size_after(12, pace, {0.02, 1e-4}).light_width < before.light_width);
    CHECK(size_after(12, pace, {0.02, 1e-5}) == before);
}

TEST_CASE("pictures are as wide as the frame at rest, and steps are odd") {
    for (const int widest : {48, 160, 300, 480, 960, 3000}) {
        CAPTURE(widest);
        LivePace pace;
        for (const QuickSize& size : {pace.drag_size(widest, kShape),
                                      pace.rest_size(widest, kShape),
                                      LivePace::better_rest_size(widest)}) {
            CHECK(size.step % 2 == 1);
            CHECK(size.width() < widest + size.step);
            CHECK(size.light_width >= std::min(LivePace::kLeastLight, widest));
        }
        CHECK(pace.rest_size(widest, kShape).width() >= widest);
        CHECK(LivePace::better_rest_size(widest).light_width >=
              pace.rest_size(widest, kShape).light_width);
    }
}

}  // namespace dapple
