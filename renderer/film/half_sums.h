// The luminance that the light walks of one pass add, apart for each half of the walks, and the
// difference of the halves' X and Z.
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
          sums_(static_cast<size_t>(runs_across_) * static_cast<size_t>(height)) {}

    // Adds XYZ to a run, rounding to the nearest integer. Numbers beyond 2^30 count as 2^30.
    void add(const std::array<RunFloats, 3>& xyz, const PixelRun& run, int half) {
        RunSums& sums = sums_[index_of(run.x, run.y)];
        for (size_t i = 0; i < PixelRun::kMost; ++i) {
            sums.luminance[static_cast<size_t>(half)][i] += whole(xyz[1][i]);
            sums.x[i] += signed_of(half, whole(xyz[0][i]));
            sums.z[i] += signed_of(half, whole(xyz[2][i]));
        }
    }
    void add(const std::array<float, 3>& xyz, int x, int y, int half) {
        RunSums& sums = sums_[index_of(x, y)];
        const auto i = static_cast<size_t>(x % PixelRun::kMost);
        sums.luminance[static_cast<size_t>(half)][i] += whole(xyz[1]);
        sums.x[i] += signed_of(half, whole(xyz[0]));
        sums.z[i] += signed_of(half, whole(xyz[2]));
    }
    int64_t luminance(int x, int y) const {
        const RunSums& sums = sums_[index_of(x, y)];
        const auto i = static_cast<size_t>(x % PixelRun::kMost);
        return sums.luminance[0][i] + sums.luminance[1][i];
    }
    // XYZ of the first half less those of the second.
    std::array<int64_t, 3> difference(int x, int y) const {
        const RunSums& sums = sums_[index_of(x, y)];
        const auto i = static_cast<size_t>(x % PixelRun::kMost);
        return {sums.x[i], sums.luminance[0][i] - sums.luminance[1][i], sums.z[i]};
    }
    void clear_rows(int first, int last) {
        const auto row = [&](int y) {
            return sums_.begin() + static_cast<std::ptrdiff_t>(index_of(0, y));
        };
        std::fill(row(first), row(last), RunSums{});
    }

  private:
    using Sums = std::array<int64_t, PixelRun::kMost>;
    struct RunSums {
        std::array<Sums, 2> luminance{};  // of each half
        Sums x{}, z{};
    };

    static int64_t signed_of(int half, int64_t value) { return half == 0 ? value : -value; }
    static int64_t whole(float quanta) {
        const float held = std::clamp(quanta, -0x1p30F, 0x1p30F);
        return static_cast<int32_t>(held + (held < 0 ? -0.5F : 0.5F));
    }
    size_t index_of(int x, int y) const {
        return static_cast<size_t>(y * runs_across_ + x / PixelRun::kMost);
    }

    int runs_across_;
    std::vector<RunSums, LineAllocator<RunSums>> sums_;  // [row][run]
};

}  // namespace dapple
