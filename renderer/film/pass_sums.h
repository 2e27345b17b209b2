// What one pass adds to the sums of a film. Splats wait for the memory that they are added to; so
// these have half the bits of the film's own, and X, Y and Z of neighbours lie together:
// [group][row][run of eight pixels][xyz][pixel of the run]. What would outgrow them is put aside
// and joins the sums with the rest when the pass ends.
//
// Whoever adds has a band of rows for itself, or, for one pixel that is its own, needs the band
// only to put something aside.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <vector>

#include "base/large_memory.h"

namespace dapple {

// Of row y the pixels from x on, a multiple of `kMost`: as many, or up to the frame's edge.
struct PixelRun {
    static constexpr int kMost = 8;
    int x, y;
};

// Something for each pixel of a run: one of the compiler's vectors.
template <typename T>
using OfRun [[gnu::vector_size(PixelRun::kMost * sizeof(T))]] = T;

using FilmSums = std::vector<int64_t, LineAllocator<int64_t>>;

class PassSums {
  public:
    PassSums(int width, int height, int groups);

    // Rows whose sums are put aside together.
    static constexpr int kBandRows = 16;
    size_t bands() const { return aside_.size(); }
    static size_t band_of(int y) { return static_cast<size_t>(y / kBandRows); }
    int first_row(size_t band) const {
        return std::min(height_, static_cast<int>(band) * kBandRows);
    }

    // As many quanta, and no more, may be added to a pixel at once by add().
    static constexpr float kMostAtOnce = 0x1p29F;

    // XYZ to a run, each to the nearest integer. None beyond the frame.
    void add(const OfRun<float> (&xyz)[3], const PixelRun& run, int group) {
        int32_t* const sums = &sums_[start_of(run, group)];
        OfRun<int32_t> large{};
        for (size_t c = 0; c < 3; ++c) {
            OfRun<int32_t> all;
            std::memcpy(&all, sums + c * PixelRun::kMost, sizeof(all));
            all += __builtin_convertvector(xyz[c] + (xyz[c] < 0 ? -kHalf : kHalf), OfRun<int32_t>);
            std::memcpy(sums + c * PixelRun::kMost, &all, sizeof(all));
            large |= all ^ (all << 1);  // beyond kLarge the two highest bits differ
        }
        if (is_any_negative(large)) put_aside_large(run, group);
    }
    // XYZ to one pixel. False, and nothing added, where a sum would outgrow its bits.
    using Quanta = std::array<int64_t, 3>;
    bool add_if_fits(const Quanta& xyz, int x, int y, int group) {
        int32_t* const sums = &sums_[start_of({x, y}, group)] + x % PixelRun::kMost;
        int64_t all[3];
        bool fits = true;
        for (size_t c = 0; c < 3; ++c) {
            all[c] = sums[c * PixelRun::kMost] + xyz[c];
            fits = fits && all[c] < kLarge && all[c] >= -kLarge;
        }
        if (!fits) return false;
        for (size_t c = 0; c < 3; ++c) sums[c * PixelRun::kMost] = static_cast<int32_t>(all[c]);
        return true;
    }
    void put_aside(const Quanta& xyz, int x, int y, int group) {
        aside_[band_of(y)].push_back({y * width_ + x, group, xyz});
    }

    // Asks for the memory of a run ahead of add().
    void fetch(const PixelRun& run, int group) const {
        const int32_t* const sums = &sums_[start_of(run, group)];
        __builtin_prefetch(sums, 1);
        __builtin_prefetch(sums + 3 * PixelRun::kMost - 1, 1);
    }
    size_t bytes() const { return sums_.size() * sizeof(int32_t); }

    // What the pass has added to the pixels of a band's rows.
    std::vector<int64_t> of_band(size_t band, int group, size_t channel) const;
    void clear_band(size_t band);

  private:
    // Two such are within 32 bits.
    static constexpr int32_t kLarge = 1 << 30;
    // The largest below a half: with a half itself whole numbers from 2^23 on would be rounded up.
    static constexpr float kHalf = 0x1.fffffep-2F;
    static constexpr size_t kPerRun = 3 * PixelRun::kMost;

    size_t start_of(const PixelRun& run, int group) const {
        const int row = group * height_ + run.y;
        return kPerRun * static_cast<size_t>(row * runs_across_ + run.x / PixelRun::kMost);
    }
    static bool is_any_negative(const OfRun<int32_t>& of_run) {
        uint64_t words[PixelRun::kMost / 2];
        std::memcpy(words, &of_run, sizeof(words));
        return ((words[0] | words[1] | words[2] | words[3]) & 0x8000000080000000U) != 0;
    }
    void put_aside_large(const PixelRun& run, int group);

    struct Aside {
        int pixel;
        int group;
        Quanta xyz;
    };

    int width_;
    int height_;
    int groups_;
    int runs_across_;
    std::vector<int32_t, LineAllocator<int32_t>> sums_;
    std::vector<std::vector<Aside>> aside_;  // by band
};

}  // namespace dapple
