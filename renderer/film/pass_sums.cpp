#include "film/pass_sums.h"

#include <algorithm>

namespace dapple {

PassSums::PassSums(int width, int height, int groups)
    : width_(width),
      height_(height),
      groups_(groups),
      runs_across_((width + PixelRun::kMost - 1) / PixelRun::kMost),
      aside_(static_cast<size_t>((height + kBandRows - 1) / kBandRows)) {
    const auto rows = static_cast<size_t>(groups) * static_cast<size_t>(height);
    const size_t sums = rows * static_cast<size_t>(runs_across_) * kPerRun;
    // Splats fall everywhere in turn.
    reserve_large(sums_, sums);
    sums_.resize(sums);
}

void PassSums::put_aside_large(const PixelRun& run, int group) {
    int32_t* const sums = &sums_[start_of(run, group)];
    for (size_t i = 0; i < kPerRun; ++i) {
        if (sums[i] < kLarge && sums[i] >= -kLarge) continue;
        Quanta xyz{};
        xyz[i / PixelRun::kMost] = sums[i];
        put_aside(xyz, run.x + static_cast<int>(i % PixelRun::kMost), run.y, group);
        sums[i] = 0;
    }
}

std::vector<int64_t> PassSums::of_band(size_t band, int group, size_t channel) const {
    const int first = first_row(band) * width_;
    std::vector<int64_t> sums;
    sums.reserve(static_cast<size_t>(first_row(band + 1) * width_ - first));
    for (int y = first_row(band); y < first_row(band + 1); ++y) {
        for (int x = 0; x < width_; x += PixelRun::kMost) {
            const int32_t* const run = &sums_[start_of({x, y}, group)] + channel * PixelRun::kMost;
            sums.insert(sums.end(), run, run + std::min(PixelRun::kMost, width_ - x));
        }
    }
    for (const Aside& a : aside_[band]) {
        if (a.group == group) sums[static_cast<size_t>(a.pixel - first)] += a.xyz[channel];
    }
    return sums;
}

void PassSums::clear_band(size_t band) {
    const auto begin_of = [&](int row, int group) {
        return sums_.begin() + static_cast<std::ptrdiff_t>(start_of({0, row}, group));
    };
    for (int g = 0; g < groups_; ++g) {
        std::fill(begin_of(first_row(band), g), begin_of(first_row(band + 1), g), 0);
    }
    aside_[band].clear();
}

}  // namespace dapple
