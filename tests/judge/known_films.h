// Film records of known light, as a render or an EXR would give them.
#pragma once

#include <functional>

#include "develop/exposure.h"
#include "develop/film_record.h"

namespace dapple::test {

// Luminance of a pixel from one fixture, cd/m².
using FixtureLight = std::function<double(int x, int y, size_t fixture)>;

// A film without noise of a grey wall, surface 0, of which every pixel sees 1 cm; one light group
// for each fixture. Its errors are known and 0.
inline FilmRecord known_film(int width,
                             int height,
                             const std::vector<std::string>& fixtures,
                             const FixtureLight& light) {
    FilmRecord record;
    record.camera.width = width;
    record.camera.height = height;
    record.run.passes = 4;
    record.surfaces = {"wall"};
    const auto pixels = static_cast<size_t>(width) * static_cast<size_t>(height);
    record.luminance.assign(pixels, 0.0F);
    record.noise.assign(pixels, 0.0F);
    record.light.assign(pixels, Rgb(0));
    const double white = white_luminance(record.camera);
    for (size_t f = 0; f < fixtures.size(); ++f) {
        record.fixtures.emplace_back();
        record.fixtures.back().name = fixtures[f];
        LightLayer layer{fixtures[f], fixtures[f], static_cast<int>(f), {}, {}};
        for (size_t i = 0; i < pixels; ++i) {
            const int x = static_cast<int>(i) % width;
            const int y = static_cast<int>(i) / width;
            const double l = light(x, y, f);
            layer.light.emplace_back(static_cast<float>(l / white));  // a grey: Y is its luminance
            record.light[i] += layer.light.back();
            record.luminance[i] += static_cast<float>(l);
        }
        record.layers.push_back(std::move(layer));
    }
    FirstHits& hits = record.first_hits;
    hits = {width, height, {}, {}, {}, {}, {}};
    hits.albedo.assign(pixels, Rgb(0.5F));
    hits.normal.assign(pixels, Normal(0, 0, 1));
    hits.depth.assign(pixels, 4.0F);
    hits.surface.assign(pixels, 0);
    hits.footprint_m.assign(pixels, 0.01F);
    record.frame.means = mean_luminance(record);
    record.frame.covariances.assign(fixtures.size() * fixtures.size(), 0.0);
    return record;
}

// The pixels of a rectangle, as a region of the record.
inline void add_region(
    FilmRecord& record, const std::string& name, int x0, int y0, int x1, int y1) {
    RegionRecord region;
    region.region.name = name;
    for (int y = y0; y < y1; ++y) {
        for (int x = x0; x < x1; ++x) region.pixels.push_back(y * record.width() + x);
    }
    region.luminance.means = mean_luminance(record, region.pixels);
    region.luminance.covariances = record.frame.covariances;
    record.regions.push_back(std::move(region));
}

// A meter that reads `lux` of each fixture, with a standard error of `error` of each.
inline void add_meter(FilmRecord& record,
                      const std::string& name,
                      const Point& position,
                      const std::vector<double>& lux,
                      double error) {
    MeterRecord meter;
    meter.meter.name = name;
    meter.meter.position = position;
    meter.lux.means = lux;
    meter.lux.covariances.assign(lux.size() * lux.size(), 0.0);
    for (size_t g = 0; g < lux.size(); ++g) {
        meter.lux.covariances[g * lux.size() + g] = error * error;
        meter.xyz.emplace_back(lux[g]);
    }
    record.meters.push_back(std::move(meter));
}

// As after a single pass.
inline void forget_errors(FilmRecord& record) {
    record.run.passes = 1;
    record.frame.covariances.clear();
    for (RegionRecord& region : record.regions) region.luminance.covariances.clear();
    for (MeterRecord& meter : record.meters) meter.lux.covariances.clear();
}

// Makes the pixels of a rectangle see another surface.
inline void put_surface(FilmRecord& record,
                        int32_t surface,
                        const Normal& normal,
                        float albedo,
                        const glm::ivec4& box) {
    for (int y = box.y; y < box.w; ++y) {
        for (int x = box.x; x < box.z; ++x) {
            const auto i = static_cast<size_t>(y * record.width() + x);
            record.first_hits.surface[i] = surface;
            record.first_hits.normal[i] = normal;
            record.first_hits.albedo[i] = Rgb(albedo);
        }
    }
}

}  // namespace dapple::test
