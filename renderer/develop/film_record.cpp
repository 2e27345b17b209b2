#include "develop/film_record.h"

#include <algorithm>

#include "base/fill_in_steps.h"
#include "base/parallel.h"
#include "clean/noise_image.h"
#include "develop/develop.h"

namespace dapple {

namespace {

// Maps each XYZ of a clean layer to the picture's colours.
std::vector<Rgb> develop_layer(const std::vector<Xyz>& layer, const Camera& camera) {
    const DMat3 develop = develop_matrix(camera);
    std::vector<Rgb> colours(layer.size());
    parallel_blocks(static_cast<int64_t>(layer.size()), 4096, [&](int64_t first, int64_t last) {
        for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
            colours[i] = Rgb(develop * layer[i]);
        }
    });
    return colours;
}

void add_layers(const FilmParts& parts, FilmRecord& record) {
    const std::vector<std::string> names = layer_names(parts.film, parts.scene);
    for (size_t g = 0; g < names.size(); ++g) {
        const LightGroup& group = parts.film.groups()[g];
        LightLayer layer{names[g], group.name, group.fixture, {}, {}};
        layer.light = develop_linear(parts.film, record.camera, static_cast<int>(g)).pixels;
        if (parts.clean && g < parts.clean->layers.size()) {
            layer.clean = develop_layer(parts.clean->layers[g], record.camera);
        }
        if (parts.glare && parts.glare->is_there()) {
            layer.glare = develop_layer(parts.glare->layers[g], record.camera);
        }
        record.layers.push_back(std::move(layer));
    }
    record.light = develop_linear(parts.film, record.camera).pixels;
    if (!parts.clean) return;
    record.clean = develop_linear(*parts.clean, record.camera).pixels;
    record.clean_stderr = parts.clean->luminance_stderr;
}

void add_glare(const FilmParts& parts, FilmRecord& record) {
    if (!parts.glare || !parts.glare->is_there()) return;
    record.glare_report = parts.glare->report;
    record.glare.assign(static_cast<size_t>(record.pixels()), Rgb(0));
    parallel_blocks(record.pixels(), 4096, [&](int64_t first, int64_t last) {
        for (const LightLayer& layer : record.layers) {
            for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
                record.glare[i] += layer.glare[i];
            }
        }
    });
}

void add_luminance(const FilmParts& parts, FilmRecord& record) {
    const auto pixels = static_cast<size_t>(parts.film.pixels());
    grow_in_steps(record.luminance, pixels);
    grow_in_steps(record.luminance_stderr, pixels);
    parallel_blocks(parts.film.pixels(), 4096, [&](int64_t first, int64_t last) {
        for (auto i = static_cast<int>(first); i < static_cast<int>(last); ++i) {
            const auto at = static_cast<size_t>(i);
            record.luminance[at] = static_cast<float>(parts.film.resolve(i).y);
            record.luminance_stderr[at] = static_cast<float>(parts.film.luminance_stderr(i));
        }
    });
    if (parts.seen) record.noise = make_noise_image(parts.film, *parts.seen).values;
}

void add_measures(const FilmParts& parts, FilmRecord& record) {
    record.frame = parts.film.frame_means();
    record.frame.means = mean_luminance(record);
    for (size_t r = 0; r < parts.film.regions().size(); ++r) {
        const PixelSet& set = parts.film.regions()[r];
        RegionRecord region;
        if (r < parts.scene.regions.size()) region.region = parts.scene.regions[r];
        region.region.name = set.name;
        region.pixels = set.pixels;
        region.luminance = parts.film.region_means(r);
        region.luminance.means = mean_luminance(record, set.pixels);
        record.regions.push_back(std::move(region));
    }
    if (!parts.meters) return;
    for (int m = 0; m < parts.meters->meters(); ++m) {
        record.meters.push_back({parts.scene.meters[static_cast<size_t>(m)],
                                 parts.meters->group_xyz(m),
                                 parts.meters->group_lux(m)});
    }
}

// The name of a fixture and what decides its light.
Fixture light_of(const Fixture& fixture) {
    Fixture light;
    light.name = fixture.name;
    light.source = fixture.source;
    light.cct_k = fixture.cct_k;
    light.duv = fixture.duv;
    light.dimmer = fixture.dimmer;
    light.dimmer_warms = fixture.dimmer_warms;
    light.gel = fixture.gel;
    light.is_window = fixture.is_window;
    return light;
}

// A sum of colours in cd/m² per pixel.
class LuminanceSum {
  public:
    explicit LuminanceSum(const Camera& camera)
        : row_(glm::transpose(glm::inverse(develop_matrix(camera)))[1]) {}
    void add(const Rgb& colour) { sum_ += Xyz(colour); }
    double mean(size_t pixels) const {
        return pixels > 0 ? glm::dot(row_, sum_) / static_cast<double>(pixels) : 0.0;
    }

  private:
    Xyz row_;
    Xyz sum_{0};
};

}  // namespace

FilmRecord make_film_record(const FilmParts& parts) {
    FilmRecord record;
    record.title = parts.scene.title;
    record.camera = parts.scene.camera;
    record.camera.width = parts.film.width();
    record.camera.height = parts.film.height();
    record.run = parts.run;
    for (const Fixture& f : parts.scene.fixtures) record.fixtures.push_back(light_of(f));
    record.lamp_places = parts.lamp_places;
    for (const Material& m : parts.scene.materials) record.surfaces.push_back(m.name);
    record.first_hits = parts.first_hits;
    add_layers(parts, record);
    add_glare(parts, record);
    add_luminance(parts, record);
    add_measures(parts, record);
    if (parts.in_frame) record.in_frame = *parts.in_frame;
    return record;
}

std::vector<Rgb> shown_light(const FilmRecord& record, bool raw) {
    std::vector<Rgb> light = raw || record.clean.empty() ? record.light : record.clean;
    for (size_t i = 0; i < record.glare.size(); ++i) light[i] += record.glare[i];
    return light;
}

std::vector<Rgb> shown_light(const LightLayer& layer) {
    std::vector<Rgb> light = layer.clean.empty() ? layer.light : layer.clean;
    for (size_t i = 0; i < layer.glare.size(); ++i) light[i] += layer.glare[i];
    return light;
}

std::vector<double> mean_luminance(const FilmRecord& record, std::span<const int32_t> pixels) {
    std::vector<double> means;
    for (const LightLayer& layer : record.layers) {
        LuminanceSum sum(record.camera);
        for (const int32_t i : pixels) sum.add(layer.light[static_cast<size_t>(i)]);
        means.push_back(sum.mean(pixels.size()));
    }
    return means;
}

std::vector<double> mean_luminance(const FilmRecord& record) {
    std::vector<double> means(record.layers.size());
    parallel_blocks(static_cast<int64_t>(means.size()), 1, [&](int64_t g, int64_t) {
        LuminanceSum sum(record.camera);
        const std::vector<Rgb>& light = record.layers[static_cast<size_t>(g)].light;
        for (const Rgb& colour : light) sum.add(colour);
        means[static_cast<size_t>(g)] = sum.mean(light.size());
    });
    return means;
}

Reading reading_of(const FilmRecord& record, const MeterRecord& meter) {
    Reading reading;
    reading.lux = meter.lux.sum();
    reading.lux_stderr = meter.lux.stderr_of_sum().value_or(0);
    for (size_t f = 0; f < record.fixtures.size(); ++f) {
        std::vector<double> weights(record.layers.size(), 0.0);
        FixtureReading part;
        for (size_t g = 0; g < weights.size(); ++g) {
            if (record.layers[g].fixture != static_cast<int>(f)) continue;
            weights[g] = 1;
            part.lux += meter.lux.means[g];
        }
        part.lux_stderr = meter.lux.stderr_of_sum(weights).value_or(0);
        reading.by_fixture.push_back(part);
    }
    return reading;
}

}  // namespace dapple
