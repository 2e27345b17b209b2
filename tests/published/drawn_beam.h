// Walks drawn from the beam of a spot: the lumens and the angles that they have.
#pragma once

#include <cmath>

#include "published/published.h"
#include "scene/scene.h"

namespace dapple::published {

// A mean and its standard error.
class RunningMean {
  public:
    void add(double x) {
        ++n_;
        const double step = x - mean_;
        mean_ += step / n_;
        squares_ += step * (x - mean_);
    }
    Estimate estimate() const { return {mean_, std::sqrt(squares_ / (n_ - 1) / n_)}; }

  private:
    int n_ = 0;
    double mean_ = 0, squares_ = 0;
};

struct DrawnBeam {
    RunningMean lumens, beam_deg, field_deg, in_beam, in_field;
};

// Means over batches of walks. Within a batch the random numbers that decide the angle are
// stratified into a hundred equal steps, as in the renderer. The batches are independent.
DrawnBeam draw_beam(const Fixture& fixture);

}  // namespace dapple::published
