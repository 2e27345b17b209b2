// How the picture darkens towards its corners.
//
//   V(θ) = S(θ)/S(0) cos³θ                                                                  (E128)
// with S the cross-section of the beam that gets through at the angle θ from the axis (relative
// illumination; distortion aside). A thin lens has S in proportion to cosθ.
#pragma once

#include <vector>

#include "lenses/hood.h"

namespace dapple {

class Vignetting {
  public:
    Vignetting(const RealLens& lens, const Hood& hood, double widest_angle);
    // By the tangent of the angle from the axis.
    double at(double tangent) const;

  private:
    double widest_ = 1;  // tangent
    std::vector<double> table_;
};

}  // namespace dapple
