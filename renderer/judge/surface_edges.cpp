#include "judge/surface_edges.h"

#include <cmath>

#include "base/parallel.h"
#include "judge/fixture_light.h"

namespace dapple {

namespace {

constexpr float kLeastCosine = 0.94F;  // of the angle between neighbouring normals

bool is_known(const FirstHits& hits, size_t pixels) {
    return hits.normal.size() == pixels && hits.depth.size() == pixels &&
           hits.footprint_m.size() == pixels;
}

// Whether the surface breaks at pixel i between its neighbours i - step and i + step.
bool breaks(const FirstHits& hits, size_t i, size_t step) {
    const size_t before = i - step;
    const size_t after = i + step;
    if (glm::dot(hits.normal[i], hits.normal[before]) < kLeastCosine) return true;
    if (glm::dot(hits.normal[i], hits.normal[after]) < kLeastCosine) return true;
    const float bend = 1 / hits.depth[before] - 2 / hits.depth[i] + 1 / hits.depth[after];
    return std::abs(bend) > hits.footprint_m[i] / (hits.depth[i] * hits.depth[i]);
}

}  // namespace

std::vector<char> find_surface_edges(const FilmRecord& record) {
    const auto pixels = static_cast<size_t>(record.pixels());
    std::vector<char> edges(pixels, 0);
    const FirstHits& hits = record.first_hits;
    if (!is_known(hits, pixels)) return edges;
    const auto width = static_cast<size_t>(record.width());
    const auto height = static_cast<size_t>(record.height());
    std::vector<char> breaks_at(pixels, 0);
    for (size_t y = 0; y < height; ++y) {
        for (size_t x = 0; x < width; ++x) {
            const size_t i = y * width + x;
            const bool across = x > 0 && x + 1 < width && breaks(hits, i, 1);
            breaks_at[i] = across || (y > 0 && y + 1 < height && breaks(hits, i, width)) ? 1 : 0;
        }
    }
    for (size_t y = 0; y < height; ++y) {
        for (size_t x = 0; x < width; ++x) {
            const size_t i = y * width + x;
            edges[i] = breaks_at[i] || (x > 0 && breaks_at[i - 1]) ||
                               (x + 1 < width && breaks_at[i + 1]) ||
                               (y > 0 && breaks_at[i - width]) ||
                               (y + 1 < height && breaks_at[i + width])
                           ? 1
                           : 0;
        }
    }
    return edges;
}

}  // namespace dapple
