#include "judge/figure_sides.h"

#include <algorithm>

#include "base/name_words.h"
#include "judge/fixture_light.h"

namespace dapple {

namespace {

constexpr size_t kLeastFigurePixels = 60;
constexpr double kLeastReflectance = 0.01;

bool is_skin_name(const std::string& name) {
    return name_has_word(name, {"skin", "face"});
}

std::vector<int32_t> pixels_of_surfaces(const FilmRecord& record,
                                        bool (*is_wanted)(const std::string&)) {
    std::vector<char> wanted;
    for (const std::string& name : record.surfaces) wanted.push_back(is_wanted(name) ? 1 : 0);
    std::vector<int32_t> pixels;
    for (size_t i = 0; i < record.first_hits.surface.size(); ++i) {
        const auto surface = static_cast<size_t>(record.first_hits.surface[i]);
        if (surface < wanted.size() && wanted[surface]) pixels.push_back(static_cast<int32_t>(i));
    }
    return pixels;
}

std::vector<int32_t> pixels_of_regions(const FilmRecord& record,
                                       bool (*is_wanted)(const std::string&)) {
    std::vector<int32_t> pixels;
    for (const RegionRecord& region : record.regions) {
        if (!is_wanted(region.region.name)) continue;
        pixels.insert(pixels.end(), region.pixels.begin(), region.pixels.end());
    }
    std::sort(pixels.begin(), pixels.end());
    pixels.erase(std::unique(pixels.begin(), pixels.end()), pixels.end());
    return pixels;
}

// Luminance of some fixtures' light over the reflectance, by pixel of the list.
std::vector<double> light_on(const FilmRecord& record,
                             const std::vector<int32_t>& pixels,
                             const std::vector<int>& fixtures) {
    const LuminanceRow row(record.camera);
    std::vector<double> light(pixels.size(), 0.0);
    for (const LightLayer& layer : record.layers) {
        if (std::find(fixtures.begin(), fixtures.end(), layer.fixture) == fixtures.end()) continue;
        for (size_t i = 0; i < pixels.size(); ++i) {
            light[i] += row.of(layer.light[static_cast<size_t>(pixels[i])]);
        }
    }
    for (size_t i = 0; i < pixels.size(); ++i) {
        light[i] /= std::max(kLeastReflectance, reflectance_at(record, pixels[i]));
    }
    return light;
}

Vec3 direction_of_rise(const FilmRecord& record,
                       const std::vector<int32_t>& pixels,
                       const std::vector<double>& light) {
    double mean = 0;
    for (const double e : light) mean += e / static_cast<double>(light.size());
    glm::dvec3 sum(0);
    for (size_t i = 0; i < pixels.size(); ++i) {
        const Normal& n = record.first_hits.normal[static_cast<size_t>(pixels[i])];
        sum += (light[i] - mean) * glm::dvec3(n);
    }
    const double length = glm::length(sum);
    return length > 0 ? Vec3(sum / length) : Vec3(0);
}

}  // namespace

Figure find_figure(const FilmRecord& record) {
    if (!has_first_hits(record)) return {};
    Figure figure{pixels_of_surfaces(record, is_figure_name),
                  pixels_of_surfaces(record, is_skin_name)};
    if (figure.pixels.empty()) {
        figure = {pixels_of_regions(record, is_figure_name),
                  pixels_of_regions(record, is_skin_name)};
    }
    if (figure.skin.size() < kLeastFigurePixels) figure.skin = figure.pixels;
    return figure;
}

FigureSides find_figure_sides(const FilmRecord& record,
                              const Figure& figure,
                              const std::vector<int>& key) {
    if (figure.pixels.empty()) return {{}, {}, "no figure in the frame"};
    if (figure.skin.size() < kLeastFigurePixels) {
        return {{}, {}, "the figure has fewer than 60 pixels"};
    }
    if (key.empty()) return {{}, {}, "no fixture lights the figure"};
    const std::vector<double> light = light_on(record, figure.skin, key);
    const Vec3 rise = direction_of_rise(record, figure.skin, light);
    if (rise == Vec3(0)) return {{}, {}, "the key does not reach the figure"};
    std::vector<std::pair<float, int32_t>> turned;
    for (const int32_t pixel : figure.skin) {
        const Normal& n = record.first_hits.normal[static_cast<size_t>(pixel)];
        turned.emplace_back(glm::dot(n, rise), pixel);
    }
    std::sort(turned.begin(), turned.end());
    FigureSides sides;
    const size_t third = turned.size() / 3;
    for (size_t i = 0; i < third; ++i) {
        sides.shadow.push_back(turned[i].second);
        sides.lit.push_back(turned[turned.size() - 1 - i].second);
    }
    std::sort(sides.shadow.begin(), sides.shadow.end());
    std::sort(sides.lit.begin(), sides.lit.end());
    return sides;
}

}  // namespace dapple
