// The order of the first pass's pixels, from coarse to fine.
#include "render/pixel_lattice.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using namespace dapple;

TEST_CASE("every pixel is on one level of the lattice") {
    for (const int width : {1, 16, 17, 50}) {
        CAPTURE(width);
        constexpr int kHeight = 33;
        const PixelLattice lattice(width, kHeight);
        std::vector<int> times(static_cast<size_t>(width) * kHeight);
        for (size_t l = 0; l < lattice.levels(); ++l) {
            for (const int32_t pixel : lattice.level(l)) ++times[static_cast<size_t>(pixel)];
        }
        CHECK(std::all_of(times.begin(), times.end(), [](int n) { return n == 1; }));
    }
}

TEST_CASE("a frame is covered by its coarsest level, and each pixel takes its nearest") {
    constexpr int kWidth = 50;
    constexpr int kHeight = 40;
    PixelLattice lattice(kWidth, kHeight);
    CHECK_FALSE(lattice.covers_frame());
    int step = 16;
    for (size_t l = 0; l < lattice.levels(); ++l, step /= 2) {
        for (const int32_t pixel : lattice.level(l)) lattice.mark(pixel);
        CHECK(lattice.covers_frame());
        const std::vector<int32_t> nearest = lattice.nearest();
        for (int i = 0; i < kWidth * kHeight; ++i) {
            const int32_t from = nearest[static_cast<size_t>(i)];
            CHECK(from % kWidth % step == 0);
            CHECK(from / kWidth % step == 0);
            CHECK(nearest[static_cast<size_t>(from)] == from);
            // Beyond the last pixel of the lattice, at the frame's edge, it may be farther.
            CHECK(std::abs(from % kWidth - i % kWidth) < step);
            CHECK(std::abs(from / kWidth - i / kWidth) < step);
        }
    }
    CHECK(lattice.share() == 1);
}
