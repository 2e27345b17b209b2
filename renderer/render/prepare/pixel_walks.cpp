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

bool sees_glass_or_its_rim(const Scene& scene, const FirstHits& first_hits, int x, int y) {
    for (int dy = -1; dy <= 1; ++dy) {
        for (int dx = -1; dx <= 1; ++dx) {
            if (sees_glass(scene, first_hits, x + dx, y + dy)) return true;
        }
    }
    return false;
}

}  // namespace

std::vector<uint8_t> count_pixel_walks(const Scene& scene, const FirstHits& first_hits) {
    std::vector<size_t> of_glass;
    for (int y = 0; y < first_hits.height; ++y) {
        for (int x = 0; x < first_hits.width; ++x) {
            if (!sees_glass_or_its_rim(scene, first_hits, x, y)) continue;
            of_glass.push_back(static_cast<size_t>(y * first_hits.width + x));
        }
    }
    std::vector<uint8_t> walks(first_hits.surface.size(), 1);
    if (of_glass.empty()) return walks;
    const double share =
        kShareOfFrame * static_cast<double>(walks.size()) / static_cast<double>(of_glass.size());
    const auto several = static_cast<uint8_t>(std::clamp(share, 1.0, kMostWalksOfPixel));
    for (const size_t pixel : of_glass) walks[pixel] = several;
    return walks;
}

}  // namespace dapple
