#include "render/prepare/find_seen_haze.h"

#include <algorithm>
#include <cmath>

namespace dapple {

SeenHaze find_seen_haze(const HazeMedium& haze, const Lens& lens, const FirstHits& first_hits) {
    constexpr float kLeastShare = 1e-6F;
    const int width = first_hits.width;
    SeenHaze seen{Plane(width, first_hits.height), Plane(width, first_hits.height, kLeastShare)};
    for_each_row(first_hits.height, [&](int y) {
        for (int x = 0; x < width; ++x) {
            const auto i = static_cast<size_t>(y * width + x);
            const Ray ray = lens.sample_ray(Vec2(x, y) + Vec2(0.5F), 0.5F, 0.5F).ray;
            const float cos_axis = glm::dot(ray.direction, lens.frame().n);
            const float length = first_hits.depth[i] / cos_axis;
            const HazeWay way = haze.way(ray.origin, ray.direction, length);
            if (!(way.first() < way.last())) continue;
            seen.length[i] = way.last();
            seen.share[i] = std::max(kLeastShare, -std::expm1(-way.depth(way.last())));
        }
    });
    return seen;
}

}  // namespace dapple
