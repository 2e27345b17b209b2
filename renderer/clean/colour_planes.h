// A frame as linear Rec.709, one plane for each channel.
#pragma once

#include <array>
#include <vector>

#include "clean/plane.h"
#include "film/film.h"
#include "spectrum/white_balance.h"

namespace dapple {

// In cd/m².
using ColourPlanes = std::array<Plane, 3>;

// Makes the planes of xyz_at(pixel).
template <class XyzAt>
ColourPlanes colours_of(int width, int height, const XyzAt& xyz_at) {
    ColourPlanes colours;
    for (Plane& plane : colours) plane = Plane(width, height);
    const DMat3& to_rgb = linear_rec709_from_xyz();
    for_each_row(height, [&](int y) {
        for (int pixel = y * width; pixel < (y + 1) * width; ++pixel) {
            const Rgb rgb(to_rgb * xyz_at(pixel));
            for (size_t c = 0; c < 3; ++c) {
                colours[c][static_cast<size_t>(pixel)] = rgb[static_cast<int>(c)];
            }
        }
    });
    return colours;
}

// All light of the film, or that of one light group.
ColourPlanes film_colours(const Film& film);
ColourPlanes film_colours(const Film& film, int group);

// XYZ in cd/m², by pixel.
std::vector<Xyz> xyz_of(const ColourPlanes& colours);

// The luminance of the colours.
Plane luminance_of(const ColourPlanes& colours);

}  // namespace dapple
