#include "judge/lamp_faces_seen.h"

#include <algorithm>
#include <cmath>

#include "judge/fixture_light.h"

namespace dapple {

namespace {

constexpr double kMostBlurPx = 64;  // of a radius; more is no longer seen as a face

bool shows_lamp(const FilmRecord& record, size_t pixel) {
    const FirstHits& hits = record.first_hits;
    if (hits.surface[pixel] >= 0 || !std::isfinite(hits.depth[pixel])) return false;
    const int fixture = strongest_fixture(record, static_cast<int32_t>(pixel));
    return fixture < 0 || !record.fixtures[static_cast<size_t>(fixture)].is_window;
}

double reach_px(const Camera& camera, double depth) {
    const double pixel = static_cast<double>(camera.sensor.x) / camera.width;
    return 1 + std::min(kMostBlurPx, 0.5 * blur_diameter(camera, depth) / pixel);
}

void mark_disc(std::vector<char>& mask, const FilmRecord& record, int x, int y, double radius) {
    const int r = static_cast<int>(radius);
    for (int v = std::max(0, y - r); v <= std::min(record.height() - 1, y + r); ++v) {
        for (int u = std::max(0, x - r); u <= std::min(record.width() - 1, x + r); ++u) {
            if (std::hypot(u - x, v - y) > radius + 0.5) continue;
            mask[static_cast<size_t>(v * record.width() + u)] = 1;
        }
    }
}

}  // namespace

double blur_diameter(const Camera& camera, double depth) {
    const double focus = static_cast<double>(camera.focus_distance);
    const double f = static_cast<double>(camera.focal_length);
    if (!(focus > f) || !(depth > 0)) return 0;
    const double aperture = f / static_cast<double>(camera.f_number);
    return aperture * f * std::abs(depth - focus) / (depth * (focus - f));
}

std::vector<char> find_lamp_faces_seen(const FilmRecord& record) {
    std::vector<char> mask(static_cast<size_t>(record.pixels()), 0);
    if (!has_first_hits(record)) return mask;
    for (int i = 0; i < record.pixels(); ++i) {
        const auto pixel = static_cast<size_t>(i);
        if (!shows_lamp(record, pixel)) continue;
        const auto depth = static_cast<double>(record.first_hits.depth[pixel]);
        mark_disc(
            mask, record, i % record.width(), i / record.width(), reach_px(record.camera, depth));
    }
    return mask;
}

}  // namespace dapple
