#include "transport/picture_edges.h"

#include <algorithm>
#include <cmath>

#include "transport/lens.h"

namespace dapple {

PictureEdges find_picture_edges(const Camera& camera) {
    const Lens lens(camera, true);
    const auto tangents_at = [&](float x, float y) {
        const Vec2 raster(x * static_cast<float>(camera.width),
                          y * static_cast<float>(camera.height));
        const Vec3 way = camera.frame.to_local(lens.sample_ray(raster, 0.5F, 0.5F).ray.direction);
        return glm::abs(Vec2(way) / way.z);
    };
    PictureEdges edges;
    edges.middles = Vec2(tangents_at(1, 0.5F).x, tangents_at(0.5F, 0).y);
    edges.outermost = edges.middles;
    constexpr int kSteps = 8;  // from the middle of an edge to its end
    for (int i = 1; i <= kSteps; ++i) {
        const float along = 0.5F + 0.5F * static_cast<float>(i) / kSteps;
        const Vec2 here(tangents_at(1, along).x, tangents_at(along, 0).y);
        edges.outermost = glm::max(edges.outermost, here);
    }
    return edges;
}

}  // namespace dapple
