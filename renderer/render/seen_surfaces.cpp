#include "render/seen_surfaces.h"

#include <algorithm>
#include <cmath>

#include "base/fill_in_steps.h"
#include "base/parallel.h"

namespace dapple {

namespace {

bool are_one_plane(const SeenSurfaces::Seen& a, const SeenSurfaces::Seen& b) {
    return a.surface == b.surface && glm::dot(a.normal, b.normal) >= 0.9999F &&
           std::abs(glm::dot(b.position - a.position, a.normal)) < 0.1F * a.footprint_m;
}

}  // namespace

bool SeenSurfaces::Seen::is_surface_at(const SurfacePoint& at, float reach_px) const {
    if (surface != at.material) return false;
    // The normals of first hits face the camera, at.shading faces outwards. Both signs are the same
    // plane.
    if (std::abs(glm::dot(normal, at.shading)) < 0.9F) return false;
    return std::abs(glm::dot(position - at.position, at.geometric)) < reach_px * footprint_m;
}

SeenSurfaces::SeenSurfaces(const FirstHits& first_hits, const Lens& lens)
    : width_(first_hits.width),
      height_(first_hits.height),
      tiles_across_((width_ + kTile - 1) / kTile) {
    const auto count = static_cast<size_t>(width_) * static_cast<size_t>(height_);
    stop_if_asked();
    grow_in_steps(pixels_, count);
    parallel_blocks(height_, 16, [&](int64_t first, int64_t last) {
        for (auto i = static_cast<int>(first) * width_; i < static_cast<int>(last) * width_; ++i) {
            const auto pixel = static_cast<size_t>(i);
            const Vec2 centre(static_cast<float>(i % width_) + 0.5F,
                              static_cast<float>(i / width_) + 0.5F);
            const Ray ray = lens.sample_ray(centre, 0.5F, 0.5F).ray;
            const float cos_axis = glm::dot(ray.direction, lens.frame().n);
            Seen& seen = pixels_[pixel];
            seen.position = ray.origin + ray.direction * (first_hits.depth[pixel] / cos_axis);
            seen.footprint_m = first_hits.footprint_m[pixel];
            seen.normal = first_hits.normal[pixel];
            seen.surface = first_hits.surface[pixel];
        }
    });
    find_planes();
}

bool SeenSurfaces::is_flat(int first_x, int first_y) const {
    const Seen& first = pixel(first_x, first_y);
    for (int y = first_y; y < std::min(first_y + kTile, height_); ++y) {
        for (int x = first_x; x < std::min(first_x + kTile, width_); ++x) {
            if (!are_one_plane(first, pixel(x, y))) return false;
        }
    }
    return true;
}

void SeenSurfaces::find_planes() {
    for (int y = 0; y < height_; y += kTile) {
        stop_if_asked();
        for (int x = 0; x < width_; x += kTile) {
            uint32_t plane = kNotFlat;
            if (is_flat(x, y)) {
                const Seen& seen = pixel(x, y);
                const auto use_plane_of = [&](int other_x, int other_y) {
                    if (other_x < 0 || other_y < 0) return false;
                    plane = plane_of_tile(other_x, other_y);
                    return plane != kNotFlat && are_one_plane(planes_[plane], seen);
                };
                if (!use_plane_of(x - kTile, y) && !use_plane_of(x, y - kTile)) {
                    plane = static_cast<uint32_t>(planes_.size());
                    planes_.push_back(seen);
                }
            }
            plane_of_.push_back(plane);
        }
    }
}

}  // namespace dapple
