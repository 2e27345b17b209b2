#include "clean/plane.h"

#include <algorithm>

#include "base/parallel.h"

namespace dapple {

void for_each_row(int height, const std::function<void(int y)>& body) {
    parallel_blocks(height, 4, [&](int64_t first, int64_t last) {
        for (int64_t y = first; y < last; ++y) body(static_cast<int>(y));
    });
}

void make_box_sums(const Plane& from, int radius, Plane& to) {
    const int width = from.width;
    for_each_row(from.height, [&](int y) {
        thread_local std::vector<float> columns;
        thread_local std::vector<double> prefix;
        columns.assign(static_cast<size_t>(width), 0.0F);
        prefix.resize(static_cast<size_t>(width) + 1);
        const int last = std::min(from.height - 1, y + radius);
        for (int v = std::max(0, y - radius); v <= last; ++v) {
            const float* row = from.row(v);
            for (int x = 0; x < width; ++x) columns[static_cast<size_t>(x)] += row[x];
        }
        prefix[0] = 0;
        for (int x = 0; x < width; ++x) {
            const auto i = static_cast<size_t>(x);
            prefix[i + 1] = prefix[i] + static_cast<double>(columns[i]);
        }
        float* out = to.row(y);
        for (int x = 0; x < width; ++x) {
            const auto begin = static_cast<size_t>(std::max(0, x - radius));
            const auto end = static_cast<size_t>(std::min(width, x + radius + 1));
            out[x] = static_cast<float>(prefix[end] - prefix[begin]);
        }
    });
}

}  // namespace dapple
