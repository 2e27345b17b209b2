#include "film/pass_sums.h"

#include <algorithm>
#include <tuple>

namespace dapple {

PassSums::PassSums(int width, int height, int groups)
    : width_(width),
      height_(height),
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
    for (int i = 0; i < static_cast<int>(kPerRun); ++i) {
        if (sums[i] < kLarge && sums[i] >= -kLarge) continue;
        const int pixel = run.y * width_ + run.x + i % PixelRun::kMost;
        put_aside(sums[i], pixel, group, static_cast<size_t>(i / PixelRun::kMost));
        sums[i] = 0;
    }
}

std::vector<PassSums::Aside> PassSums::aside() const {
    std::vector<Aside> all;
    for (const auto& of_band : aside_) all.insert(all.end(), of_band.begin(), of_band.end());
    const auto name = [](const Aside& a) { return std::tuple(a.group, a.channel, a.pixel); };
    std::sort(
        all.begin(), all.end(), [&](const Aside& a, const Aside& b) { return name(a) < name(b); });
    std::vector<Aside> joined;
    for (const Aside& a : all) {
        if (!joined.empty() && name(joined.back()) == name(a)) {
            joined.back().quanta += a.quanta;
        } else {
            joined.push_back(a);
        }
    }
    return joined;
}

void PassSums::clear_rows(int first, int last) {
    const auto groups = static_cast<int>(sums_.size() / start_of({0, height_}, 0));
    for (int g = 0; g < groups; ++g) {
        const auto begin = static_cast<std::ptrdiff_t>(start_of({0, first}, g));
        const auto end = static_cast<std::ptrdiff_t>(start_of({0, last}, g));
        std::fill(sums_.begin() + begin, sums_.begin() + end, 0);
    }
}

void PassSums::forget_aside() {
    for (auto& of_band : aside_) of_band.clear();
}

}  // namespace dapple
