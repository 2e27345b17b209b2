// A finer picture with coarse light: the reflectance of what each fine pixel sees, times the light
// of the coarse frame on that surface.
//
//   F_j = g a_j Σ_i b_ij s_ij L_i / Σ_i b_ij s_ij                                        (E146)
// j: fine pixel; i: the 3 × 3 coarse pixels around it; b: quadratic B-spline of the distance in the
// frame; s: how alike the surfaces are that j and the centre of i see; L: cleaned light over
// reflectance; a: reflectance; g: near 1, brings the mean of F over 5 × 5 coarse pixels to that of
// the coarse frame, in which splats may have left out pixels at rims. Joint bilateral upsampling
// (Kopf et al. 2007, eq. 3), with what is seen first in place of an image. Edges and textures are
// as sharp as the fine frame, shadows and patterns of light as the coarse one.
//
// Where no surface around is alike: L of surfaces that face the same way, nearer ones counting
// more. Glass, and what is far out of focus, takes F of the coarse pixels around it. Light that the
// clean frame leaves in its pixel goes to the lamp's face if the pixel shows one. Else it stays in
// its coarse pixel, interpolated among those that hold such light: it is brighter than the display
// and would light what is beside it.
#pragma once

#include "clean/clean_film.h"
#include "clean/coarse_light.h"
#include "film/fine_points.h"

namespace dapple {

// A clean frame of the fine size, without errors and layers. `seen`: of the coarse frame.
CleanFrame make_finer(const CoarseLight& light, const SeenPoints& seen, const FinePoints& fine);

// Adds light without edges, by pixel of the coarse frame, XYZ, interpolated by b.
void add_coarse(const std::vector<Xyz>& light, int step, CleanFrame& fine);

}  // namespace dapple
