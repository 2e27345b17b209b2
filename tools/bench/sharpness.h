// Whether structure is there, beside noise: a render that blurs faint folds away may still have a
// small relMSE.
//
// The frame part that a rectangle holds is high-passed, F ↦ F - G₄F with G a Gaussian of 4 px.
//   contrast = ⟨hp T, hp A⟩ / ⟨hp B, hp A⟩, of T against two references A and B; 1: all is there.
//              Noise of the three is independent and averages out.
//   blur_px  = the σ for which mean((T - GσA)(T - GσB)) is least: the references blurred so much
//              fit T best. An edge is then 2.56 σ wide from 10 to 90 %. 3.9, the most that is
//              tried, stands for that or more.
#pragma once

#include <vector>

#include "compare.h"

namespace dapple {

// A rectangle of pixels, row by row.
struct Patch {
    int width = 0, height = 0;
};

struct Sharpness {
    double contrast = 0;
    double blur_px = 0;
};

Sharpness judge_sharpness(const Patch& patch,
                          const std::vector<double>& tested,
                          const References& references);

// Blurred with a Gaussian; at the rim only what lies inside counts.
std::vector<double> blurred(const Patch& patch, const std::vector<double>& values, double sigma_px);

}  // namespace dapple
