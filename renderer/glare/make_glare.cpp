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
    const double focal = image_distance_mm(camera);
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
std::vector<LensLight> not_in_film(const Camera& camera, const std::vector<LensLight>& lights) {
    std::vector<LensLight> hidden;
    for (const LensLight& light : lights) {
        if (!light.in_film || !place_in_picture(camera, light)) hidden.push_back(light);
    }
    return hidden;
}

}  // namespace

struct LensGlare::Parts {
    // The lens of glass and what it does by itself.
    struct GlassLens {
        RealLens lens;
        Hood hood;
        double ghosts_index = 0;

        explicit GlassLens(const Camera& camera)
            : lens(camera),
              hood(make_hood(camera, lens, 1e3 * static_cast<double>(camera.lens.hood_length))),
              ghosts_index(ghosts_of_bright_field(camera, lens, {})) {}
    };

    Setup setup;
    std::vector<LensLight> lights;
    std::optional<GlassLens> glass;
    DrawnGhosts ghosts;
    GlareReport report;  // places in pixels of `ghosts.grid`

    Parts(const Scene& scene, const World& world, const Camera& camera)
        : setup(scene, world, false), lights(find_lens_lights(setup)) {
        report.index = camera.lens.veiling_glare;
        report.f_number = static_cast<double>(camera.f_number);
        ghosts.by_light.resize(lights.size());
        if (camera.lens.is_glass()) {
            glass.emplace(camera);
            ghosts = draw_ghosts({camera, setup.groups, glass->lens, glass->hood, lights});
            report.lens = camera.lens.name;
            report.f_number = glass->lens.f_number();
            report.hood_mm = glass->hood.length;
            report.ghosts_index = glass->ghosts_index;
        }
        report.lamps =
            report_lamps(setup, glass ? &glass->lens : nullptr, hood(), lights, ghosts.by_light);
    }

    Hood hood() const { return glass ? glass->hood : Hood(); }
    // The report with places in the camera's pixels.
    GlareReport report_for(const Camera& camera) const {
        GlareReport scaled = report;
        const double step = glass ? ghosts.grid.pitch / pixel_grid(camera, 1).pitch : 1;
        for (GlareLamp& lamp : scaled.lamps) {
            for (Ghost& ghost : lamp.ghosts) {
                ghost.at *= step;
                ghost.diameter *= step;
            }
        }
        return scaled;
    }
    // Surfaces make ghosts that are as wide as a veil: the index, and at least that of the ghosts.
    // The ghosts of lamps are drawn, so their veil is what the index leaves. An index of 0 turns
    // every veil off.
    VeilLights veil_of(const Camera& camera, const std::vector<LensLight>& hidden) const {
        const Veil veil(1e3 * static_cast<double>(glm::length(camera.sensor)));
        const double index = camera.lens.veiling_glare;
        VeilLights with;
        if (index > 0) with.scattered = veil.scattered_for(std::max(index, report.ghosts_index));
        with.of_lamps = veil.scattered_for(std::max(0.0, index - report.ghosts_index));
        with.lights = &hidden;
        with.groups = &setup.groups;
        if (glass) with.hood = &glass->hood;
        return with;
    }
};

LensGlare::LensGlare(const Scene& scene, const World& world)
    : scene_(scene), world_(world), camera_(scene.camera) {}

LensGlare::~LensGlare() = default;

GlareFrame LensGlare::of(const Film& film) {
    GlareFrame glare;
    if (!camera_.lens.is_there()) return glare;
    if (!parts_) parts_ = std::make_unique<const Parts>(scene_, world_, camera_);
    Camera camera = camera_;
    camera.width = film.width();
    camera.height = film.height();
    std::vector<XyzPlane> light = light_of(film);
    glare.layers.assign(light.size(), XyzPlane(light.front().size(), Xyz(0)));
    if (parts_->glass) {
        const Parts::GlassLens& glass = *parts_->glass;
        if (camera.lens.vignetting) {
            add_vignetting(camera, glass.lens, glass.hood, light, glare.layers);
        }
        add_ghosts(parts_->ghosts, parts_->setup.groups, camera, glare.layers);
        add_stars(glass.lens, camera, film.groups(), light, glare.layers);
    }
    const std::vector<LensLight> hidden = not_in_film(camera, parts_->lights);
    add_veil(camera, parts_->veil_of(camera, hidden), light, glare.layers);
    glare.report = parts_->report_for(camera);
    return glare;
}

GlareFrame make_glare(const Scene& scene, const World& world, const Film& film) {
    return LensGlare(scene, world).of(film);
}

}  // namespace dapple
