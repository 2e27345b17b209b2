// The order in which the first pass of a large frame takes its pixels, from coarse to fine: every
// 16th pixel in both directions, then every 8th, and so on. If the pass is stopped, each pixel that
// was not taken shows its nearest pixel that was. The order does not change the walks, because each
// walk depends only on its pixel and its number.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace dapple {

class PixelLattice {
  public:
    PixelLattice(int width, int height);

    size_t levels() const { return ends_.size(); }
    // The pixels of a level that are on no coarser one, row by row.
    std::span<const int32_t> level(size_t number) const;

    // Marks a pixel as taken. Different threads may mark different pixels.
    void mark(int32_t pixel) { taken_[static_cast<size_t>(pixel)] = 1; }
    // By pixel: 1 for those that are taken.
    std::span<const uint8_t> taken() const { return taken_; }
    // The share of the pixels that are taken.
    double share() const;
    // Whether every pixel of the coarsest level is taken, so that the frame can be shown.
    bool covers_frame() const;
    // For each pixel the nearest one that is taken: itself if it is. The frame must be covered.
    std::vector<int32_t> nearest() const;

  private:
    static constexpr int kCoarsest = 16;  // px

    int32_t nearest_to(int x, int y) const;

    int width_;
    int height_;
    std::vector<int32_t> order_;
    std::vector<size_t> ends_;    // of each level in `order_`
    std::vector<uint8_t> taken_;  // by pixel; not bits, because threads share them
};

}  // namespace dapple
