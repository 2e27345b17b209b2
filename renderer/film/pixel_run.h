// Runs of pixels, the unit in which splats are added to the film.
//
// The words of this folder:
//   run      eight neighbouring pixels of one row; the last run of a row ends at the frame's edge
//   part     one of the up to eight points in which a splat's wavelengths land, with its own
//            throughput; a splat whose wavelengths stay together has one part
//   weight   a pixel's share of one part
//   quantum  one unit of the film's integer sums
//   band     sixteen rows of the frame that share one lock
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstring>

namespace dapple {

// The pixels of row `y` from `x` on, a multiple of `kMost`: `kMost` pixels, or fewer at the frame's
// edge.
struct PixelRun {
    static constexpr int kMost = 8;
    int x, y;
};

// A number for each pixel of a run, as one of the compiler's vectors: arithmetic works on all eight
// at once.
using RunFloats [[gnu::vector_size(PixelRun::kMost * sizeof(float))]] = float;
using RunInts [[gnu::vector_size(PixelRun::kMost * sizeof(int32_t))]] = int32_t;

// Whether any of the eight numbers, two of which make a word of 64 bits, has a bit of `mask`.
template <typename RunVector>
bool has_any_bit(const RunVector& numbers, uint64_t mask) {
    uint64_t words[PixelRun::kMost / 2];
    std::memcpy(words, &numbers, sizeof(words));
    return ((words[0] | words[1] | words[2] | words[3]) & mask) != 0;
}

// The weights of one run's pixels in one part; 0 beyond the frame.
struct RunWeights {
    RunFloats v;

    bool is_zero() const { return !has_any_bit(v, ~uint64_t{0}); }
    float sum() const {
        float all = 0;
        for (size_t i = 0; i < PixelRun::kMost; ++i) all += v[i];
        return all;
    }
};

}  // namespace dapple
