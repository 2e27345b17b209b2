// What one pass adds to the film's sums.
//
// Adding splats is limited by memory latency. So a pass's sums have 32 bits, half of those of the
// film's own sums, and X, Y and Z of a run stand side by side: [group][row][run][xyz][pixel of the
// run]. A sum that would outgrow its 32 bits is put aside in a list. When the pass ends, the film
// adds both to its own sums.
//
// A caller of add() or put_aside() holds the lock of the band. A caller of add_if_fits() either
// holds it or is the only one that adds to that pixel. Words: pixel_run.h.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

#include "base/large_memory.h"
#include "base/memory_hints.h"
#include "film/pixel_run.h"

namespace dapple {

using FilmSums = std::vector<int64_t, LineAllocator<int64_t>>;

// XYZ of one pixel in whole quanta.
using PixelQuanta = std::array<int64_t, 3>;

// XYZ of a run's pixels in quanta, not yet rounded.
struct RunQuanta {
    RunFloats xyz[3];
};

class PassSums {
  public:
    PassSums(int width, int height, int groups);

    static constexpr int kBandRows = 16;
    size_t bands() const { return aside_.size(); }
    static size_t band_of(int y) { return static_cast<size_t>(y / kBandRows); }
    int first_row(size_t band) const {
        return std::min(height_, static_cast<int>(band) * kBandRows);
    }

    // The most quanta that one call of add() may add to a pixel.
    static constexpr float kMostAtOnce = 0x1p29F;

    // Adds to a run, rounding to the nearest integer. `quanta` is 0 beyond the frame.
    void add(const RunQuanta& quanta, const PixelRun& run, int group) {
        RunSums& sums = sums_[index_of(run, group)];
        RunInts large{};
        for (size_t c = 0; c < 3; ++c) {
            const RunFloats& q = quanta.xyz[c];
            sums.xyz[c] += __builtin_convertvector(q + (q < 0 ? -kHalf : kHalf), RunInts);
            // The two highest bits of a sum differ where it is outside -kLarge to kLarge.
            large |= sums.xyz[c] ^ (sums.xyz[c] << 1);
        }
        if (has_any_bit(large, kSigns)) put_aside_large(run, group);
    }
    // Adds to one pixel. Returns false, and adds nothing, where a sum would outgrow its bits.
    bool add_if_fits(const PixelQuanta& quanta, int x, int y, int group) {
        RunSums& sums = sums_[index_of({x, y}, group)];
        const int i = x % PixelRun::kMost;
        int64_t all[3];
        bool fits = true;
        for (size_t c = 0; c < 3; ++c) {
            all[c] = sums.xyz[c][i] + quanta[c];
            fits = fits && all[c] < kLarge && all[c] >= -kLarge;
        }
        if (!fits) return false;
        for (size_t c = 0; c < 3; ++c) sums.xyz[c][i] = static_cast<int32_t>(all[c]);
        return true;
    }
    void put_aside(const PixelQuanta& quanta, int x, int y, int group) {
        aside_[band_of(y)].push_back({y * width_ + x, group, quanta});
    }

    // Prefetches the memory of a run for add().
    void fetch(const PixelRun& run, int group) const {
        const RunSums& sums = sums_[index_of(run, group)];
        prefetch_to_write(&sums.xyz[0]);
        prefetch_to_write(&sums.xyz[2]);  // may be in the next cache line
    }
    size_t bytes() const { return sums_.size() * sizeof(RunSums); }

    // What the pass has added to the pixels of a band, row by row.
    std::vector<int64_t> band_sums(size_t band, int group, size_t channel) const;
    void clear_band(size_t band);

  private:
    // The sum of two numbers below this has 32 bits.
    static constexpr int32_t kLarge = 1 << 30;
    static constexpr uint64_t kSigns = 0x8000000080000000U;  // of two numbers in a word
    // The largest float below a half. A half itself would round up whole numbers from 2^23 on.
    static constexpr float kHalf = 0x1.fffffep-2F;

    struct RunSums {
        RunInts xyz[3];
    };
    struct Aside {
        int pixel;
        int group;
        PixelQuanta quanta;
    };

    size_t index_of(const PixelRun& run, int group) const {
        const int row = group * height_ + run.y;
        return static_cast<size_t>(row * runs_across_ + run.x / PixelRun::kMost);
    }
    void put_aside_large(const PixelRun& run, int group);

    int width_;
    int height_;
    int groups_;
    int runs_across_;
    std::vector<RunSums, LineAllocator<RunSums>> sums_;
    std::vector<std::vector<Aside>> aside_;  // by band
};

}  // namespace dapple
