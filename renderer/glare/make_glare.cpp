#include "glare/make_glare.h"

#include <optional>

#include "base/parallel.h"
#include "develop/exposure.h"
#include "glare/add_spread.h"
#include "glare/report_lamps.h"
#include "lenses/field_ghosts.h"
#include "lenses/veil.h"
#include "lenses/vignetting.h"

namespace dapple {

namespace {

std::vector<XyzPlane> light_of(const Film& film) {
    std::vector<XyzPlane> planes(film.groups().size());
    const auto pixels = static_cast<size_t>(film.pixels());
    parallel_blocks(static_cast<int64_t>(planes.size()), 1, [&](int64_t first, int64_t) {
        const auto g = static_cast<size_t>(first);
        planes[g].resize(pixels);
        for (size_t i = 0; i < pixels; ++i) {
            planes[g][i] = film.resolve(static_cast<int>(i), static_cast<int>(g));
        }
    });
    return planes;
}

// Darkens the light towards the corners, and adds the change to the layers.
void add_vignetting(const Camera& camera,
                    const RealLens& lens,
                    const Hood& hood,
                    std::vector<XyzPlane>& film,
                    std::vector<XyzPlane>& layers) {
    const Vignetting vignetting(lens, hood, half_diagonal_angle(camera));
    const PixelGrid grid = pixel_grid(camera, 1);
    const double focal = 1e3 * static_cast<double>(camera.focal_length);
    for (int y = 0; y < grid.height; ++y) {
        for (int x = 0; x < grid.width; ++x) {
            const double r =
                grid.pitch * std::hypot(x + 0.5 - 0.5 * grid.width, y + 0.5 - 0.5 * grid.height);
            const double passes = vignetting.at(r / focal);
            const auto i = static_cast<size_t>(y * grid.width + x);
            for (size_t g = 0; g < film.size(); ++g) {
                layers[g][i] += (passes - 1) * film[g][i];
                film[g][i] *= passes;
            }
        }
    }
}

// Lights that the film does not show: beyond the picture, or points.
std::vector<LensLight> not_in_film(const Setup& setup, const std::vector<LensLight>& lights) {
    std::vector<LensLight> hidden;
    for (const LensLight& light : lights) {
        const bool is_point = setup.emitters[static_cast<size_t>(light.fixture)].is_point();
        if (is_point || !place_in_picture(setup.scene.camera, light)) hidden.push_back(light);
    }
    return hidden;
}

// The veil of a lens, less what its ghosts make of the index.
double scattered_part(const Camera& camera, double ghosts_index) {
    const Veil veil(1e3 * static_cast<double>(glm::length(camera.sensor)));
    return veil.scattered_for(std::max(0.0, camera.lens.veiling_glare - ghosts_index));
}

}  // namespace

GlareFrame make_glare(const Scene& scene, const World& world, const Film& film) {
    GlareFrame glare;
    Camera camera = scene.camera;
    camera.width = film.width();
    camera.height = film.height();
    if (!camera.lens.is_there()) return glare;
    const Setup setup(scene, world, false);
    const std::vector<LensLight> lights = find_lens_lights(setup);
    std::vector<XyzPlane> light = light_of(film);
    glare.layers.assign(light.size(), XyzPlane(light.front().size(), Xyz(0)));
    GlareReport& report = glare.report;
    report.index = camera.lens.veiling_glare;
    report.f_number = static_cast<double>(camera.f_number);
    std::optional<RealLens> lens;
    Hood hood;
    std::vector<std::vector<Ghost>> ghosts(lights.size());
    if (camera.lens.is_glass()) {
        lens.emplace(camera);
        hood = make_hood(camera, *lens, 1e3 * static_cast<double>(camera.lens.hood_length));
        report.lens = camera.lens.name;
        report.f_number = lens->f_number();
        report.hood_mm = hood.length;
        report.ghosts_index = ghosts_of_bright_field(camera, *lens, {});
        if (camera.lens.vignetting) add_vignetting(camera, *lens, hood, light, glare.layers);
        const LensAndLights with{setup, *lens, hood, lights, white_luminance(camera)};
        ghosts = add_ghosts(with, glare.layers);
        add_stars(with, film.groups(), light, glare.layers);
    }
    const std::vector<LensLight> hidden = not_in_film(setup, lights);
    const double scattered = scattered_part(camera, report.ghosts_index);
    add_veil(
        camera, {scattered, &hidden, &setup.groups, lens ? &hood : nullptr}, light, glare.layers);
    report.lamps = report_lamps(setup, lens ? &*lens : nullptr, hood, lights, ghosts);
    return glare;
}

}  // namespace dapple
