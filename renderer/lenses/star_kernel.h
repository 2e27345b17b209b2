// What diffraction makes of one bright pixel, on the pixels of the picture.
#pragma once

#include "lenses/diffraction.h"
#include "lenses/fourier.h"

namespace dapple {

// The pixels of a picture.
struct PixelGrid {
    int width = 0, height = 0;
    double pitch = 0;  // mm
};

// Shares of the pixel's light, at each pixel (x, y) away from it, on a plane of `fourier`'s size
// that wraps around; the pixel's own share is at (0, 0). Negative there and adding up to 0: it is
// what diffraction adds and takes. `weights`: how much of the light each of the eight bands has.
class StarKernel {
  public:
    StarKernel(const RealLens& lens, const Dust& dust, const PixelGrid& pixels);
    RealPlane plane(const PlaneFourier& fourier,
                    const std::array<double, kSpectrumSize>& weights) const;

  private:
    void add_core(size_t band, double nm);
    void add_far(RealPlane& plane, const PlaneFourier& fourier, double mean_nm) const;

    PixelGrid pixels_;
    StopEdges edges_;
    double f_number_ = 4;
    double core_radius_ = 0;  // mm, where the far formula takes over
    int core_half_ = 0;       // px
    DiffractionSpread spread_;
    std::array<std::vector<float>, kSpectrumSize> cores_;  // squares of 2 core_half_ + 1
};

}  // namespace dapple
