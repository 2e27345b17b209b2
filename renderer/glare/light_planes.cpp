#include "glare/light_planes.h"

#include <algorithm>

#include "base/parallel.h"

namespace dapple {

PixelGrid pixel_grid(const Camera& camera, int step) {
    const double pitch = 1e3 * static_cast<double>(camera.sensor.x) / camera.width;  // mm
    return {(camera.width + step - 1) / step, (camera.height + step - 1) / step, step * pitch};
}

double image_distance_mm(const Camera& camera) {
    const double f = 1e3 * static_cast<double>(camera.focal_length);
    const double focus = 1e3 * static_cast<double>(camera.focus_distance);
    return focus > 0 ? f * focus / (focus - f) : f;
}

int coarse_step(const Camera& camera, int width) {
    return std::max(1, (camera.width + width - 1) / width);
}

XyzPlane coarsened(const XyzPlane& plane, const PixelGrid& fine, int step) {
    const int width = (fine.width + step - 1) / step;
    const int height = (fine.height + step - 1) / step;
    XyzPlane coarse(static_cast<size_t>(width) * static_cast<size_t>(height));
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            Xyz sum(0);
            int count = 0;
            for (int v = y * step; v < std::min((y + 1) * step, fine.height); ++v) {
                for (int u = x * step; u < std::min((x + 1) * step, fine.width); ++u, ++count) {
                    sum += plane[static_cast<size_t>(v * fine.width + u)];
                }
            }
            coarse[static_cast<size_t>(y * width + x)] = sum / static_cast<double>(count);
        }
    }
    return coarse;
}

std::vector<char> find_bright(const std::vector<XyzPlane>& film, double limit) {
    std::vector<char> bright(film.front().size());
    parallel_blocks(static_cast<int64_t>(bright.size()), 4096, [&](int64_t first, int64_t last) {
        for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
            double luminance = 0;
            for (const XyzPlane& plane : film) luminance += plane[i].y;
            bright[i] = luminance > limit;
        }
    });
    return bright;
}

}  // namespace dapple
