// Films of known light as records, for tests of rebalancing.
#pragma once

#include "develop/film_record.h"
#include "develop/lit_film.h"
#include "fixtures/source_groups.h"

namespace dapple {

inline Fixture fixture_named(const std::string& name, SourceKind source, float cct_k) {
    Fixture f;
    f.name = name;
    f.source = source;
    f.cct_k = cct_k;
    return f;
}

// The light groups of the scene's fixtures.
inline std::vector<LightGroup> groups_of(const Scene& scene) {
    std::vector<LightGroup> groups;
    for (size_t f = 0; f < scene.fixtures.size(); ++f) {
        for (const SourceGroup& group : make_source_groups(scene.fixtures[f])) {
            groups.push_back(
                {scene.fixtures[f].name + group.suffix, group.spectrum, static_cast<int>(f)});
        }
    }
    return groups;
}

// A set of an LED, a tungsten lamp that warms and a daylight lamp, two meters and a region.
inline Scene three_lamps() {
    Scene scene;
    scene.camera.width = 8;
    scene.camera.height = 6;
    scene.fixtures = {fixture_named("net", SourceKind::kLed, 5000),
                      fixture_named("key", SourceKind::kTungsten, 3200),
                      fixture_named("sky", SourceKind::kDaylight, 6500)};
    scene.meters.resize(2);
    scene.meters[0].name = "face";
    scene.meters[1].name = "wall, left";
    scene.regions = {{"wall", kNoMaterial, true, {0, 0, 4, 6}}};
    return scene;
}

// Luminance of a pixel and lux of a meter, per lumen of a fixture, in one pass.
struct TrueLight {
    std::function<double(int pixel, int fixture, int pass)> luminance;
    std::function<double(int meter, int fixture, int pass)> lux;
};

inline FilmRecord record_of(const Scene& scene, const TrueLight& light, int passes) {
    const std::vector<LightGroup> groups = groups_of(scene);
    Film film(scene.camera.width, scene.camera.height, groups, 0x1p-30);
    FirstHits hits{scene.camera.width, scene.camera.height, {}, {}, {}, {}, {}};
    hits.surface.assign(static_cast<size_t>(film.pixels()), 0);
    std::vector<PixelSet> regions;
    for (const Region& r : scene.regions) {
        regions.push_back({r.name, find_pixels(hits, r.surface, r.rect_px())});
    }
    film.set_regions(regions);
    const int fixtures = static_cast<int>(scene.fixtures.size());
    const int meters = static_cast<int>(scene.meters.size());
    MeterFilm meter_film(meters, fixtures, groups, 0x1p-30);
    std::vector<double> strengths;
    for (const Fixture& f : scene.fixtures) {
        strengths.push_back(static_cast<double>(f.dimmer) * make_source_light(f).gel_passes);
    }
    const auto strength = [&](int f) { return strengths[static_cast<size_t>(f)]; };
    for (int pass = 0; pass < passes; ++pass) {
        const Wavelengths wavelengths = make_pass_wavelengths(1, static_cast<uint32_t>(pass));
        film.begin_pass(wavelengths);
        meter_film.begin_pass(wavelengths);
        for (size_t g = 0; g < groups.size(); ++g) {
            const int f = groups[g].fixture;
            for (int i = 0; i < film.pixels(); ++i) {
                const double y = strength(f) * light.luminance(i, f, pass);
                film.add(i, static_cast<int>(g), Spectrum(static_cast<float>(y)));
            }
        }
        for (int m = 0; m < meters; ++m) {
            for (int f = 0; f < fixtures; ++f) {
                const double lux = strength(f) * light.lux(m, f, pass);
                meter_film.add(m, f, Spectrum(static_cast<float>(lux)));
            }
        }
        film.end_pass();
        meter_film.end_pass();
    }
    return make_film_record({.scene = scene,
                             .film = film,
                             .first_hits = hits,
                             .meters = &meter_film,
                             .seen = nullptr,
                             .clean = nullptr,
                             .run = {}});
}

// Light that is different for each pixel, meter and fixture, and a little so for each pass.
inline TrueLight plain_light() {
    return {[](int pixel, int fixture, int pass) {
                return (1 + pixel % 5 + 2 * fixture) * (1 + 0.01 * ((pass * 7 + fixture) % 3));
            },
            [](int meter, int fixture, int pass) {
                return (fixture == 2 ? 40.0 : 100.0 + 150.0 * ((meter + fixture) % 2)) *
                       (1 + 0.01 * ((pass * 5 + 2 * fixture) % 3));
            }};
}

}  // namespace dapple
