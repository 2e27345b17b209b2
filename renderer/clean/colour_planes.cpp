#include "clean/colour_planes.h"

#include "base/fill_in_steps.h"
namespace dapple {

ColourPlanes film_colours(const Film& film) {
    return colours_of(film.width(), film.height(), [&](int pixel) { return film.resolve(pixel); });
}

ColourPlanes film_colours(const Film& film, int group) {
    return colours_of(
        film.width(), film.height(), [&](int pixel) { return film.resolve(pixel, group); });
}

std::vector<Xyz> xyz_of(const ColourPlanes& colours) {
    const DMat3 to_xyz = glm::inverse(linear_rec709_from_xyz());
    std::vector<Xyz> result;
    grow_in_steps(result, colours[0].size());
    for_each_pixel(colours[0], [&](size_t i) {
        result[i] = to_xyz * Xyz(colours[0][i], colours[1][i], colours[2][i]);
    });
    return result;
}

Plane luminance_of(const ColourPlanes& colours) {
    const DMat3 to_xyz = glm::inverse(linear_rec709_from_xyz());
    const Rgb y(static_cast<float>(to_xyz[0].y),
                static_cast<float>(to_xyz[1].y),
                static_cast<float>(to_xyz[2].y));
    return make_plane(colours[0].width, colours[0].height, [&](size_t i) {
        return y.r * colours[0][i] + y.g * colours[1][i] + y.b * colours[2][i];
    });
}

}  // namespace dapple
