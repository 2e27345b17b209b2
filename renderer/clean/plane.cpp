#include "clean/plane.h"

#include <algorithm>

#include "base/parallel.h"

namespace dapple {

namespace {

// The sum of each column's pixels in the rows around `y`.
void sum_columns(const Plane& from, int y, int radius, std::vector<float>& columns) {
    std::fill(columns.begin(), columns.end(), 0.0F);
    const int last = std::min(from.height - 1, y + radius);
    for (int v = std::max(0, y - radius); v <= last; ++v) {
        const float* const row = from.row(v);
        for (size_t x = 0; x < columns.size(); ++x) columns[x] += row[x];
    }
}

}  // namespace

void for_each_row(int height, const std::function<void(int y)>& body) {
    parallel_blocks(height, 4, [&](int64_t first, int64_t last) {
        for (int64_t y = first; y < last; ++y) body(static_cast<int>(y));
    });
}

Plane box_sums(const Plane& from, int radius) {
    Plane sums(from.width, from.height);
    const auto width = static_cast<size_t>(from.width);
    const auto reach = static_cast<size_t>(radius);
    parallel_blocks(from.height, 16, [&](int64_t first, int64_t end) {
        std::vector<float> columns(width);
        std::vector<double> before(width + 1);  // sum of the columns left of each
        for (auto y = static_cast<int>(first); y < static_cast<int>(end); ++y) {
            sum_columns(from, y, radius, columns);
            for (size_t x = 0; x < width; ++x) {
                before[x + 1] = before[x] + static_cast<double>(columns[x]);
            }
            float* const out = sums.row(y);
            for (size_t x = 0; x < width; ++x) {
                const size_t left = x < reach ? 0 : x - reach;
                out[x] = static_cast<float>(before[std::min(width, x + reach + 1)] - before[left]);
            }
        }
    });
    return sums;
}

}  // namespace dapple
