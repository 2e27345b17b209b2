#include "judge/point_reading.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace dapple {

namespace {

constexpr int kPatchShare = 120;      // the patch reaches this part of the frame's width each way
constexpr float kSameFacing = 0.97F;  // cosine
constexpr float kSameDepth = 0.05F;
constexpr float kDarkest = 0.01F;  // an albedo below counts as this

bool shows_lamp(const FirstHits& hits, size_t i) {
    return !hits.lamp.empty() && hits.lamp[i] >= 0;
}

// The pixels around that show the same face of the same surface.
std::vector<size_t> patch_around(const FirstHits& hits, int x, int y) {
    const auto at = [&](int u, int v) {
        return static_cast<size_t>(v) * static_cast<size_t>(hits.width) + static_cast<size_t>(u);
    };
    const size_t centre = at(x, y);
    const int reach = std::max(1, hits.width / kPatchShare);
    std::vector<size_t> patch;
    for (int v = std::max(0, y - reach); v <= std::min(hits.height - 1, y + reach); ++v) {
        for (int u = std::max(0, x - reach); u <= std::min(hits.width - 1, x + reach); ++u) {
            const size_t i = at(u, v);
            const float step = std::abs(hits.depth[i] - hits.depth[centre]);
            if (hits.surface[i] != hits.surface[centre] || shows_lamp(hits, i)) continue;
            if (glm::dot(hits.normal[i], hits.normal[centre]) < kSameFacing) continue;
            if (!(step <= kSameDepth * hits.depth[centre])) continue;
            patch.push_back(i);
        }
    }
    return patch;
}

std::optional<double> error_of(const FilmRecord& film, const std::vector<size_t>& patch) {
    if (!film.noise_known()) return std::nullopt;
    double sum = 0;
    double error = 0;
    for (const size_t i : patch) {
        sum += static_cast<double>(film.luminance[i]);
        error += static_cast<double>(film.luminance_stderr[i]);
    }
    if (!(sum > 0)) return std::nullopt;
    return error / sum;
}

}  // namespace

std::optional<PointReading> read_point(const FilmRecord& film,
                                       int x,
                                       int y,
                                       const Direction& seen_along) {
    const FirstHits& hits = film.first_hits;
    if (hits.empty()) return std::nullopt;
    const auto centre = static_cast<size_t>(y * hits.width + x);
    if (hits.surface[centre] < 0 || shows_lamp(hits, centre)) return std::nullopt;
    const std::vector<size_t> patch = patch_around(hits, x, y);
    PointReading reading;
    const Camera& camera = film.camera;
    const float per_depth = 1.0F / glm::dot(seen_along, camera.frame.n);
    reading.position = camera.position + hits.depth[centre] * per_depth * seen_along;
    reading.normal = hits.normal[centre];
    reading.surface = hits.surface[centre];
    reading.pixels = static_cast<int>(patch.size());
    const float share = 1 / static_cast<float>(patch.size());
    for (const LightLayer& layer : film.layers) {
        Rgb light(0);
        Rgb illuminance(0);
        for (const size_t i : patch) {
            light += share * layer.light[i];
            illuminance += share * static_cast<float>(kPi) * layer.light[i] /
                           glm::max(hits.albedo[i], Rgb(kDarkest));
        }
        reading.light.push_back(light);
        reading.illuminance.push_back(illuminance);
    }
    reading.error = error_of(film, patch);
    return reading;
}

}  // namespace dapple
