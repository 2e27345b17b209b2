// The lumens of a photometric file: the exact integral of candela that are linear between the
// file's angles (E12).
#pragma once

#include "scene/photometry/photometry.h"

namespace dapple {

// ∫ I sinθ dθ for I linear in θ from i0 at t0 to i1 at t1, rad.
double zone_integral(double t0, double t1, double i0, double i1);

double lumens_of(const Photometry& photometry);

}  // namespace dapple
