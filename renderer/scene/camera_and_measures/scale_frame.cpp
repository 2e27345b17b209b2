#include "scene/camera_and_measures/scale_frame.h"

#include <algorithm>
#include <cmath>

namespace dapple {

void scale_frame(Scene& scene, int width) {
    Camera& camera = scene.camera;
    const double scale = static_cast<double>(width) / camera.width;
    const auto scaled = [scale](int px) { return static_cast<int>(std::lround(px * scale)); };
    camera.width = width;
    camera.height = std::max(1, scaled(camera.height));
    for (Region& region : scene.regions) {
        for (int c = 0; c < 4; ++c) region.rect[c] = scaled(region.rect[c]);
    }
}

}  // namespace dapple
