#include "film/pass_sums.h"

#include <algorithm>

namespace dapple {

PassSums::PassSums(int width, int height, int groups)
    : width_(width),
      height_(height),
      groups_(groups),
      runs_across_((width + PixelRun::kMost - 1) / PixelRun::kMost),
      aside_(static_cast<size_t>((height + kBandRows - 1) / kBandRows)) {
    const size_t runs = static_cast<size_t>(groups) * static_cast<size_t>(height) *
                        static_cast<size_t>(runs_across_);
    // In large pages, because neighbouring splats in time are far apart in memory.
    reserve_large(sums_, runs);
    sums_.resize(runs);
}

void PassSums::put_aside_large(const PixelRun& run, int group) {
    RunSums& sums = sums_[index_of(run, group)];
    for (size_t c = 0; c < 3; ++c) {
        for (int i = 0; i < PixelRun::kMost; ++i) {
            const int32_t sum = sums.xyz[c][i];
            if (sum < kLarge && sum >= -kLarge) continue;
            PixelQuanta quanta{};
            quanta[c] = sum;
            put_aside(quanta, run.x + i, run.y, group);
            sums.xyz[c][i] = 0;
        }
    }
}

std::vector<int64_t> PassSums::band_sums(size_t band, int group, size_t channel) const {
    const int first = first_row(band) * width_;
    std::vector<int64_t> sums;
    sums.reserve(static_cast<size_t>(first_row(band + 1) * width_ - first));
    for (int y = first_row(band); y < first_row(band + 1); ++y) {
        for (int x = 0; x < width_; x += PixelRun::kMost) {
            const RunInts& run = sums_[index_of({x, y}, group)].xyz[channel];
            for (int i = 0; i < std::min(PixelRun::kMost, width_ - x); ++i) sums.push_back(run[i]);
        }
    }
    for (const Aside& a : aside_[band]) {
        if (a.group == group) sums[static_cast<size_t>(a.pixel - first)] += a.quanta[channel];
    }
    return sums;
}

void PassSums::clear_band(size_t band) {
    const auto row_begin = [&](int row, int group) {
        return sums_.begin() + static_cast<std::ptrdiff_t>(index_of({0, row}, group));
    };
    for (int g = 0; g < groups_; ++g) {
        std::fill(row_begin(first_row(band), g), row_begin(first_row(band + 1), g), RunSums{});
    }
    aside_[band].clear();
}

}  // namespace dapple
