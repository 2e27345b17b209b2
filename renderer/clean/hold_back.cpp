#include "clean/hold_back.h"

#include <algorithm>

#include "clean/link_pixels.h"

namespace dapple {

Plane hold_back(const Plane& light, float most) {
    const int radius = 12;
    const int width = light.width;
    const int height = light.height;
    Plane held(width, height);
    for (size_t k = 0; k < held.values.size(); ++k) held[k] = std::min(light[k], most);
    Plane sums(width, height);
    const Plane ones(width, height, 1.0F);
    Plane counts(width, height);
    make_box_sums(ones, radius, counts);
    for (int i = 0; i < 4; ++i) {
        make_box_sums(held, radius, sums);
        for_each_row(height, [&](int y) {
            for (int x = 0; x < width; ++x) {
                const auto k = static_cast<size_t>(y * width + x);
                const float mean = (sums[k] - held[k]) / counts[k];
                held[k] = std::min(held[k], mean * (1 + tuning.cap * counts[k]));
            }
        });
    }
    for (size_t k = 0; k < held.values.size(); ++k) {
        held[k] = light[k] > 0 ? 1 - std::max(held[k], 0.0F) / light[k] : 0;
    }
    return held;
}

}  // namespace dapple
