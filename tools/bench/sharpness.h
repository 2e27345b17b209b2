// How well a render keeps structure, apart from noise. A render that blurs faint folds away may
// still have a small relMSE.
//
// A rectangle of the frame is high-passed, hp F = F - G₄F with G a Gaussian of 4 px.
//   contrast = ⟨hp T, hp A⟩ / ⟨hp B, hp A⟩, of T against two references A and B; 1: all structure
//              is kept. The noises of the three are independent and average out.
//   blur_px  = the σ for which mean((T - GσA)(T - GσB)) is least: T fits the references best if
//   they
//              are blurred that much. An edge is then 2.56 σ wide from 10 to 90 %. The largest σ
//              tried is 3.9; it means that or more.
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

// Blurred with a Gaussian. At the rim only the pixels inside the patch are averaged.
std::vector<double> blurred(const Patch& patch, const std::vector<double>& values, double sigma_px);

}  // namespace dapple
