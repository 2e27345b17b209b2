#include "render/pixel_lattice.h"

#include <algorithm>
#include <numeric>

#include "base/parallel.h"

namespace dapple {

PixelLattice::PixelLattice(int width, int height)
    : width_(width),
      height_(height),
      taken_(static_cast<size_t>(width) * static_cast<size_t>(height)) {
    order_.reserve(taken_.size());
    for (int step = kCoarsest; step >= 1; step /= 2) {
        for (int y = 0; y < height; y += step) {
            // Rows of the coarser level have their even pixels already.
            const bool is_new_row = step == kCoarsest || y % (2 * step) != 0;
            for (int x = is_new_row ? 0 : step; x < width; x += is_new_row ? step : 2 * step) {
                order_.push_back(y * width + x);
            }
        }
        ends_.push_back(order_.size());
    }
}

std::span<const int32_t> PixelLattice::level(size_t number) const {
    const size_t first = number == 0 ? 0 : ends_[number - 1];
    return {order_.data() + first, ends_[number] - first};
}

double PixelLattice::share() const {
    const auto taken = std::accumulate(taken_.begin(), taken_.end(), int64_t{0});
    return static_cast<double>(taken) / static_cast<double>(taken_.size());
}

bool PixelLattice::covers_frame() const {
    const std::span<const int32_t> coarsest = level(0);
    return std::all_of(coarsest.begin(), coarsest.end(), [&](int32_t pixel) {
        return taken_[static_cast<size_t>(pixel)] != 0;
    });
}

int32_t PixelLattice::nearest_to(int x, int y) const {
    const auto rounded = [](int at, int step, int size) {
        const int near = (at + step / 2) / step * step;
        return near < size ? near : near - step;
    };
    for (int step = 1; step < kCoarsest; step *= 2) {
        const int32_t pixel = rounded(y, step, height_) * width_ + rounded(x, step, width_);
        if (taken_[static_cast<size_t>(pixel)] != 0) return pixel;
    }
    return rounded(y, kCoarsest, height_) * width_ + rounded(x, kCoarsest, width_);
}

std::vector<int32_t> PixelLattice::nearest() const {
    std::vector<int32_t> nearest(taken_.size());
    parallel_blocks(height_, 16, [&](int64_t first, int64_t last) {
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < width_; ++x) {
                nearest[static_cast<size_t>(y * width_ + x)] = nearest_to(x, y);
            }
        }
    });
    return nearest;
}

}  // namespace dapple
