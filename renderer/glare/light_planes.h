// The film's light as planes of colours, one for each light group, and how they change resolution.
#pragma once

#include <vector>

#include "film/film.h"
#include "lenses/star_kernel.h"
#include "scene/scene.h"

namespace dapple {

using XyzPlane = std::vector<Xyz>;

// Whether each light group has a layer of its own, or all groups have one together. What glare does
// is linear in the groups, so both come to the same picture, but for roundings and for what is
// guessed beyond the picture's edge.
enum class GlareLayers { kOfGroups, kTogether };

inline size_t layer_of(GlareLayers layers, size_t group) {
    return layers == GlareLayers::kTogether ? 0 : group;
}

// The pixels of the camera's picture, each `step` of them taken as one.
PixelGrid pixel_grid(const Camera& camera, int step);

// From the lens to the film as the picture is drawn, mm (thin lens, E80).
double image_distance_mm(const Camera& camera);

// Pixels of the coarse grid for one of the fine grid, so that it is about `width` wide; at least 1.
int coarse_step(const Camera& camera, int width);

// Means over squares of `step` pixels; those at the edge may be cut.
XyzPlane coarsened(const XyzPlane& plane, const PixelGrid& fine, int step);

// 1 for the pixels in which the light of all groups together is brighter than `limit`, cd/m².
std::vector<char> find_bright(const std::vector<XyzPlane>& film, double limit);

// A value of a coarse plane at a pixel of the fine one, linear in between. `step` is the size of a
// coarse pixel in fine ones. `at` returns the value of a coarse pixel.
template <class At>
auto between_pixels(const PixelGrid& coarse, double step, int x, int y, const At& at) {
    const auto place = [step](int k, int count) {
        return std::clamp((k + 0.5) / step - 0.5, 0.0, static_cast<double>(count - 1));
    };
    const double u = place(x, coarse.width);
    const double v = place(y, coarse.height);
    const int i = std::min(static_cast<int>(u), std::max(0, coarse.width - 2));
    const int j = std::min(static_cast<int>(v), std::max(0, coarse.height - 2));
    const double a = u - i;
    const double b = v - j;
    const int right = std::min(i + 1, coarse.width - 1);
    const int below = std::min(j + 1, coarse.height - 1);
    return (1 - b) * ((1 - a) * at(i, j) + a * at(right, j)) +
           b * ((1 - a) * at(i, below) + a * at(right, below));
}

}  // namespace dapple
