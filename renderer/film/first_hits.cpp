#include "film/first_hits.h"

#include <algorithm>

namespace dapple {

std::vector<int32_t> find_pixels(const FirstHits& hits,
                                 int32_t surface,
                                 const std::optional<glm::ivec4>& rect) {
    const glm::ivec4 all(0, 0, hits.width, hits.height);
    const glm::ivec4 part = rect.value_or(all);
    std::vector<int32_t> pixels;
    for (int y = std::max(0, part.y); y < std::min(hits.height, part.w); ++y) {
        for (int x = std::max(0, part.x); x < std::min(hits.width, part.z); ++x) {
            const int32_t i = y * hits.width + x;
            if (surface < 0 || hits.surface[static_cast<size_t>(i)] == surface) pixels.push_back(i);
        }
    }
    return pixels;
}

}  // namespace dapple
