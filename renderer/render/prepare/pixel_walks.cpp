#include "render/prepare/pixel_walks.h"

#include <algorithm>

namespace dapple {

namespace {

constexpr double kShareOfFrame = 0.3;
constexpr double kMostWalksOfPixel = kSpectrumSize;

bool sees_glass(const Scene& scene, const FirstHits& first_hits, int x, int y) {
    if (x < 0 || y < 0 || x >= first_hits.width || y >= first_hits.height) return false;
    const int32_t id = first_hits.surface[static_cast<size_t>(y * first_hits.width + x)];
    return id != kNoMaterial &&
           scene.materials[static_cast<size_t>(id)].kind == MaterialKind::kGlass;
}

bool sees_or_touches_glass(const Scene& scene, const FirstHits& first_hits, int x, int y) {
    for (int dy = -1; dy <= 1; ++dy) {
        for (int dx = -1; dx <= 1; ++dx) {
            if (sees_glass(scene, first_hits, x + dx, y + dy)) return true;
        }
    }
    return false;
}

}  // namespace

std::vector<uint8_t> count_pixel_walks(const Scene& scene, const FirstHits& first_hits) {
    std::vector<size_t> glass_pixels;
    for (int y = 0; y < first_hits.height; ++y) {
        for (int x = 0; x < first_hits.width; ++x) {
            if (!sees_or_touches_glass(scene, first_hits, x, y)) continue;
            glass_pixels.push_back(static_cast<size_t>(y * first_hits.width + x));
        }
    }
    std::vector<uint8_t> walks(first_hits.surface.size(), 1);
    if (glass_pixels.empty()) return walks;
    const double count = kShareOfFrame * static_cast<double>(walks.size()) /
                         static_cast<double>(glass_pixels.size());
    const auto several = static_cast<uint8_t>(std::clamp(count, 1.0, kMostWalksOfPixel));
    for (const size_t pixel : glass_pixels) walks[pixel] = several;
    return walks;
}

}  // namespace dapple
