#include "glare/make_glare.h"

#include <optional>

#include "base/parallel.h"
#include "develop/exposure.h"
#include "glare/add_spread.h"
#include "glare/report_lamps.h"
#include "lenses/field_ghosts.h"
#include "lenses/lens_wavelengths.h"
#include "lenses/veil.h"
#include "lenses/vignetting.h"

namespace dapple {

namespace {

// The film's light, by layer.
std::vector<XyzPlane> light_of(const Film& film, GlareLayers which) {
    const auto pixels = static_cast<size_t>(film.pixels());
    if (which == GlareLayers::kTogether) {
        std::vector<XyzPlane> all(1, XyzPlane(pixels));
        parallel_blocks(film.pixels(), 4096, [&](int64_t first, int64_t last) {
            for (int64_t i = first; i < last; ++i) {
                all[0][static_cast<size_t>(i)] = film.resolve(static_cast<int>(i));
            }
        });
        return all;
    }
    std::vector<XyzPlane> planes(film.groups().size());
    parallel_blocks(static_cast<int64_t>(planes.size()), 1, [&](int64_t first, int64_t) {
        const auto g = static_cast<size_t>(first);
        planes[g].resize(pixels);
        for (size_t i = 0; i < pixels; ++i) {
            planes[g][i] = film.resolve(static_cast<int>(i), static_cast<int>(g));
        }
    });
    return planes;
}

std::vector<XyzPlane> dark_layers(const std::vector<XyzPlane>& film) {
    std::vector<XyzPlane> layers(film.size());
    parallel_blocks(static_cast<int64_t>(layers.size()), 1, [&](int64_t g, int64_t) {
        layers[static_cast<size_t>(g)].assign(film.front().size(), Xyz(0));
    });
    return layers;
}

// What the lens passes at each pixel, 1 in the middle.
std::vector<double> vignetting_of(const Camera& camera, const Vignetting& vignetting) {
    const PixelGrid grid = pixel_grid(camera, 1);
    const double focal = image_distance_mm(camera);
    std::vector<double> passed(static_cast<size_t>(grid.width) * static_cast<size_t>(grid.height));
    parallel_blocks(grid.height, 16, [&](int64_t first, int64_t last) {
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < grid.width; ++x) {
                const double r = grid.pitch * std::hypot(x + 0.5 - 0.5 * grid.width,
                                                         y + 0.5 - 0.5 * grid.height);
                passed[static_cast<size_t>(y * grid.width + x)] = vignetting.at(r / focal);
            }
        }
    });
    return passed;
}

// Adds the change that vignetting makes of `light` to the layers.
void add_vignetting(const std::vector<double>& passed,
                    const std::vector<XyzPlane>& light,
                    std::vector<XyzPlane>& layers) {
    parallel_blocks(static_cast<int64_t>(passed.size()), 4096, [&](int64_t first, int64_t last) {
        for (size_t g = 0; g < light.size(); ++g) {
            for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
                layers[g][i] += (passed[i] - 1) * light[g][i];
            }
        }
    });
}

void darken(const std::vector<double>& passed, std::vector<XyzPlane>& light) {
    parallel_blocks(static_cast<int64_t>(passed.size()), 4096, [&](int64_t first, int64_t last) {
        for (XyzPlane& plane : light) {
            for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
                plane[i] *= passed[i];
            }
        }
    });
}

// Stars and the veil are made of the film's light, and the pixel that the light comes from loses
// it. If the clean frame shows less than the film has there, the pixel loses the same share of what
// is shown. Otherwise it would end below zero.
void lose_share_of_shown(const Film& film,
                         const std::vector<XyzPlane>& shown,
                         std::vector<XyzPlane>& layers) {
    const bool together = layers.size() < film.groups().size();
    parallel_blocks(film.pixels(), 4096, [&](int64_t first, int64_t last) {
        for (size_t g = 0; g < layers.size(); ++g) {
            for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
                if (!(layers[g][i].y < 0)) continue;
                const int pixel = static_cast<int>(i);
                const double light =
                    together ? film.resolve(pixel).y : film.resolve(pixel, static_cast<int>(g)).y;
                if (shown[g][i].y < light) layers[g][i] *= std::max(0.0, shown[g][i].y) / light;
            }
        }
    });
}

// The colours of the layers' light, for stars. One layer of all groups has as much of each as the
// pixels that make stars.
std::vector<BandColours> colours_of(const Film& film,
                                    const std::vector<XyzPlane>& light,
                                    double white) {
    std::vector<BandColours> colours;
    for (const LightGroup& group : film.groups()) colours.push_back(band_xyz(group.spectrum));
    if (light.size() == colours.size()) return colours;
    const std::vector<char> bright = find_bright(light, kBrightOfWhite * white);
    BandColours all{};
    for (size_t i = 0; i < bright.size(); ++i) {
        if (!bright[i]) continue;
        for (size_t g = 0; g < colours.size(); ++g) {
            const double share = film.resolve(static_cast<int>(i), static_cast<int>(g)).y;
            for (size_t j = 0; j < all.size(); ++j) all[j] += share * colours[g][j];
        }
    }
    return {all};
}

// XYZ per lux of a light, of one of its fixture's groups.
Xyz colour_per_lux(const LightGroup& group, const LensLight& light) {
    const auto bands = band_xyz(group.spectrum);
    Xyz sum(0);
    for (size_t j = 0; j < bands.size(); ++j) {
        sum += static_cast<double>(light.passed[static_cast<int>(j)]) * bands[j];
    }
    return sum;
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
    VeilLights veil_of(const Camera& camera,
                       const std::vector<LensLight>& hidden,
                       GlareLayers which) const {
        const Veil veil(1e3 * static_cast<double>(glm::length(camera.sensor)));
        const double index = camera.lens.veiling_glare;
        VeilLights with;
        if (index > 0) with.scattered = veil.scattered_for(std::max(index, report.ghosts_index));
        with.of_lamps = veil.scattered_for(std::max(0.0, index - report.ghosts_index));
        with.lamps.resize(layer_of(which, setup.groups.groups.size() - 1) + 1);
        for (const LensLight& light : hidden) {
            const double lit = glass ? glass->hood.lit_share(light.angle()) : 1;
            if (!(lit > 0)) continue;
            const auto first = static_cast<size_t>(setup.groups.first_of(light.fixture));
            const auto end = static_cast<size_t>(setup.groups.first_of(light.fixture + 1));
            for (size_t g = first; g < end; ++g) {
                const Xyz colour = colour_per_lux(setup.groups.groups[g], light);
                with.lamps[layer_of(which, g)].push_back({&light, lit, colour});
            }
        }
        return with;
    }
};

LensGlare::LensGlare(const Scene& scene, const World& world)
    : scene_(scene), world_(world), camera_(scene.camera) {}

LensGlare::~LensGlare() = default;

GlareFrame LensGlare::of(const Film& film, const CleanFrame* clean) {
    return make(film, clean ? &clean->layers : nullptr, GlareLayers::kOfGroups);
}

GlareFrame LensGlare::sum_of(const Film& film, const CleanFrame* clean) {
    if (!clean) return make(film, nullptr, GlareLayers::kTogether);
    const std::vector<XyzPlane> shown = {clean->total};
    return make(film, &shown, GlareLayers::kTogether);
}

GlareFrame LensGlare::make(const Film& film,
                           const std::vector<XyzPlane>* shown,
                           GlareLayers which) {
    GlareFrame glare;
    if (!camera_.lens.is_there()) return glare;
    if (!parts_) parts_ = std::make_unique<const Parts>(scene_, world_, camera_);
    Camera camera = camera_;
    camera.width = film.width();
    camera.height = film.height();
    std::vector<XyzPlane> light = light_of(film, which);
    glare.layers = dark_layers(light);
    std::vector<double> passed;  // empty without vignetting
    if (parts_->glass) {
        const Parts::GlassLens& glass = *parts_->glass;
        if (camera.lens.vignetting) {
            passed = vignetting_of(camera,
                                   Vignetting(glass.lens, glass.hood, half_diagonal_angle(camera)));
            if (!shown) add_vignetting(passed, light, glare.layers);
            darken(passed, light);
        }
        const double white = white_luminance(camera);
        add_stars(glass.lens, camera, colours_of(film, light, white), light, glare.layers);
    }
    const std::vector<LensLight> hidden = not_in_film(camera, parts_->lights);
    add_veil(camera, parts_->veil_of(camera, hidden, which), std::move(light), glare.layers);
    if (shown) {
        lose_share_of_shown(film, *shown, glare.layers);
        // With the change of the film, the film's noise would be in the clean frame.
        add_vignetting(passed, *shown, glare.layers);
    }
    if (parts_->glass) {
        add_ghosts(parts_->ghosts, parts_->setup.groups, camera, which, glare.layers);
    }
    glare.report = parts_->report_for(camera);
    return glare;
}

GlareFrame make_glare(const Scene& scene,
                      const World& world,
                      const Film& film,
                      const CleanFrame* clean) {
    return LensGlare(scene, world).of(film, clean);
}

}  // namespace dapple
