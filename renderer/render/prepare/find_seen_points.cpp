#include "render/prepare/find_seen_points.h"

#include "base/parallel.h"
#include "render/prepare/find_first_hits.h"

namespace dapple {

namespace {

constexpr int kGrid = 3;  // places across a pixel at the rim of a surface

// The first surface at a raster position.
SeenPoint look_at(const Setup& setup, const Vec2& raster) {
    SeenPoint seen;
    const Ray ray = setup.lens.sample_ray(raster, 0.5F, 0.5F).ray;
    Hit hit;
    if (!setup.world.closest(ray, hit)) return seen;
    const SurfacePoint at = setup.world.surface_at(ray, hit);
    seen.position = at.position;
    seen.normal = glm::dot(at.shading, ray.direction) < 0.0F ? at.shading : -at.shading;
    seen.footprint_m = setup.lens.pixel_width_at(
        glm::dot(at.position - setup.lens.position(), setup.lens.frame().n));
    seen.surface = at.material;
    if (at.material != kNoMaterial) {
        seen.albedo = surface_colour(setup.scene, at.material, at.uv);
    }
    return seen;
}

// The pixel of the 3 × 3 around (x, y) that sees the surface of `seen` best, row by row; the middle
// one if none does.
size_t best_match(const SeenPoints& points, int x, int y, const SeenPoint& seen) {
    size_t best = 4;
    float most = 0;
    for (const size_t k : {4, 1, 3, 5, 7, 0, 2, 6, 8}) {
        const int u = x + static_cast<int>(k % 3) - 1;
        const int v = y + static_cast<int>(k / 3) - 1;
        if (u < 0 || v < 0 || u >= points.width || v >= points.height) continue;
        const float like = likeness(points.pixels[static_cast<size_t>(v * points.width + u)], seen);
        if (like > most) {
            most = like;
            best = k;
        }
    }
    return best;
}

bool is_at_rim(const SeenPoints& points, int x, int y) {
    const SeenPoint& own = points.pixels[static_cast<size_t>(y * points.width + x)];
    for (int v = std::max(0, y - 1); v <= std::min(points.height - 1, y + 1); ++v) {
        for (int u = std::max(0, x - 1); u <= std::min(points.width - 1, x + 1); ++u) {
            const SeenPoint& other = points.pixels[static_cast<size_t>(v * points.width + u)];
            if (!(likeness(own, other) > 0) && (own.surface >= 0 || other.surface >= 0)) return true;
        }
    }
    return false;
}

SharedPixel share_out(const Setup& setup, const SeenPoints& points, int x, int y) {
    SharedPixel shared;
    shared.pixel = y * points.width + x;
    constexpr float kShare = 1.0F / (kGrid * kGrid);
    for (int place = 0; place < kGrid * kGrid; ++place) {
        const Vec2 at((static_cast<float>(place % kGrid) + 0.5F) / kGrid,
                      (static_cast<float>(place / kGrid) + 0.5F) / kGrid);
        const bool centre = place == kGrid * kGrid / 2;
        const size_t k = centre ? 4
                                : best_match(points,
                                             x,
                                             y,
                                             look_at(setup, Vec2(x, y) + at));
        shared.shares[k] += kShare;
    }
    return shared;
}

}  // namespace

SeenPoints find_seen_points(const Setup& setup, const FirstHits& first_hits) {
    SeenPoints points{first_hits.width, first_hits.height, {}, {}};
    points.pixels.resize(first_hits.surface.size());
    parallel_blocks(points.height, 4, [&](int64_t first, int64_t last) {
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < points.width; ++x) {
                points.pixels[static_cast<size_t>(y * points.width + x)] =
                    look_at(setup, Vec2(x, y) + Vec2(0.5F));
            }
        }
    });
    std::vector<std::vector<SharedPixel>> rows(static_cast<size_t>(points.height));
    parallel_blocks(points.height, 4, [&](int64_t first, int64_t last) {
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < points.width; ++x) {
                if (!is_at_rim(points, x, y)) continue;
                rows[static_cast<size_t>(y)].push_back(share_out(setup, points, x, y));
            }
        }
    });
    for (const std::vector<SharedPixel>& row : rows) {
        points.shared.insert(points.shared.end(), row.begin(), row.end());
    }
    return points;
}

}  // namespace dapple
