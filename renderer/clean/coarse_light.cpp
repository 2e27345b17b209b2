#include "clean/coarse_light.h"

#include <algorithm>
#include <cmath>

#include "clean/seen_fit.h"

namespace dapple {

namespace {

constexpr float kSameSurface = 0.5F;  // likeness
constexpr int kFarthest = 12;         // px

// The pixels whose kept light is the light of one pixel now.
class KeptSource {
  public:
    KeptSource(const KeptLight& kept, const SeenPoints& seen) : kept_(kept), seen_(seen) {}

    void find(size_t i) {
        from_.clear();
        if (fits(i, i)) return from_.push_back(i);
        const int x = static_cast<int>(i) % seen_.width;
        const int y = static_cast<int>(i) / seen_.width;
        for (int ring = 1; ring <= kFarthest && from_.empty(); ++ring) look_round(i, x, y, ring);
        if (from_.empty()) from_.push_back(i);
    }
    float mean(const Plane& plane) const {
        float sum = 0;
        for (const size_t k : from_) sum += plane[k];
        return sum / static_cast<float>(from_.size());
    }

  private:
    bool fits(size_t now, size_t then) const {
        return fit_of(seen_.pixels[now], kept_.seen.pixels[then]) > kSameSurface;
    }
    void look_round(size_t i, int x, int y, int ring) {
        for (int v = std::max(0, y - ring); v <= std::min(seen_.height - 1, y + ring); ++v) {
            const int across = std::abs(v - y) == ring ? 1 : 2 * ring;
            for (int u = x - ring; u <= x + ring; u += across) {
                if (u < 0 || u >= seen_.width) continue;
                const auto k = static_cast<size_t>(v * seen_.width + u);
                if (fits(i, k)) from_.push_back(k);
            }
        }
    }

    const KeptLight& kept_;
    const SeenPoints& seen_;
    std::vector<size_t> from_;
};

void add_at(size_t i, const KeptSource& source, const ColourPlanes& kept, ColourPlanes& planes) {
    for (size_t c = 0; c < planes.size(); ++c) planes[c][i] += source.mean(kept[c]);
}

}  // namespace

void add_kept_light(const KeptLight& kept, const SeenPoints& seen, CoarseLight& light) {
    KeptSource source(kept, seen);
    for (size_t i = 0; i < seen.pixels.size(); ++i) {
        source.find(i);
        add_at(i, source, kept.light.on_surfaces, light.on_surfaces);
        light.luminance_on_surfaces[i] += source.mean(kept.light.luminance_on_surfaces);
        add_at(i, source, kept.light.by_pixel, light.by_pixel);
        add_at(i, source, kept.light.held, light.held);
    }
}

}  // namespace dapple
