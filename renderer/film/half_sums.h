// The luminance that the light walks of one pass add, apart for each half of the walks.
//
// The two halves are independent samples of the same light. Their difference has no signal,
// whatever the scene, and the noise of their sum, also where splats share it between pixels.
//
// Integers, so that any order of adding gives the same bits. A caller of add() holds the lock of
// the band. Words: pixel_run.h.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

#include "base/large_memory.h"
#include "film/pixel_run.h"

namespace dapple {

class HalfSums {
  public:
    HalfSums(int width, int height)
        : runs_across_((width + PixelRun::kMost - 1) / PixelRun::kMost),
          sums_(2 * static_cast<size_t>(runs_across_) * static_cast<size_t>(height)) {}

    // Adds to a run, rounding to the nearest integer. Numbers beyond 2^30 count as 2^30.
    void add(const RunFloats& quanta, const PixelRun& run, int half) {
        Sums& sums = sums_[index_of(run.x, run.y, half)];
        for (size_t i = 0; i < PixelRun::kMost; ++i) sums[i] += whole(quanta[i]);
    }
    void add(float quanta, int x, int y, int half) {
        sums_[index_of(x, y, half)][static_cast<size_t>(x % PixelRun::kMost)] += whole(quanta);
    }
    int64_t sum(int x, int y, int half) const {
        return sums_[index_of(x, y, half)][static_cast<size_t>(x % PixelRun::kMost)];
    }
    void clear_rows(int first, int last) {
        const auto row = [&](int y) {
            return sums_.begin() + static_cast<std::ptrdiff_t>(index_of(0, y, 0));
        };
        std::fill(row(first), row(last), Sums{});
    }

  private:
    using Sums = std::array<int64_t, PixelRun::kMost>;

    static int64_t whole(float quanta) {
        const float held = std::clamp(quanta, -0x1p30F, 0x1p30F);
        return static_cast<int32_t>(held + (held < 0 ? -0.5F : 0.5F));
    }
    size_t index_of(int x, int y, int half) const {
        return 2 * static_cast<size_t>(y * runs_across_ + x / PixelRun::kMost) +
               static_cast<size_t>(half);
    }

    int runs_across_;
    std::vector<Sums, LineAllocator<Sums>> sums_;  // [row][run][half]
};

}  // namespace dapple
