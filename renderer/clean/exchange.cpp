#include "clean/exchange.h"

#include <algorithm>

namespace dapple {

namespace {

// Calls visit(x begin, x end, weights at i, offset of j) for both directions of each link of row y.
template <class Visit>
void for_each_neighbour(const std::vector<Links>& links, int y, const Visit& visit) {
    for (const Links& l : links) {
        const int width = l.weights.width;
        const int height = l.weights.height;
        const int offset = l.dy * width + l.dx;
        if (y + l.dy < height) {
            visit(std::max(0, -l.dx), std::min(width, width - l.dx), l.weights.row(y), offset, l.kernel);
        }
        if (y - l.dy >= 0) {
            visit(std::max(0, l.dx), std::min(width, width + l.dx), l.weights.row(y) - offset, -offset, l.kernel);
        }
    }
}

}  // namespace

Plane sum_weights(const std::vector<Links>& links) {
    const int width = links.front().weights.width;
    Plane sums(width, links.front().weights.height, 1.0F);
    for_each_row(sums.height, [&](int y) {
        float* sum = sums.row(y);
        for_each_neighbour(links, y, [&](int begin, int end, const float* weights, int, float kernel) {
            for (int x = begin; x < end; ++x) sum[x] += kernel * weights[x];
        });
    });
    return sums;
}

void exchange_light(const std::vector<Links>& links,
                    const Plane& weight_sums,
                    const Plane& reflectance,
                    Plane& light) {
    const int width = light.width;
    Plane share(width, light.height);
    for_each_row(light.height, [&](int y) {
        for (int x = 0; x < width; ++x) share.row(y)[x] = reflectance.row(y)[x] / weight_sums.row(y)[x];
    });
    Plane result(width, light.height);
    for_each_row(light.height, [&](int y) {
        const float* own = light.row(y);
        const float* s = share.row(y);
        float* out = result.row(y);
        std::fill(out, out + width, 0.0F);
        for_each_neighbour(links, y, [&](int begin, int end, const float* weights, int offset, float kernel) {
            for (int x = begin; x < end; ++x) {
                const float exchanged = kernel * weights[x] * std::min(s[x], s[x + offset]);
                out[x] += exchanged * (own[x + offset] - own[x]);
            }
        });
        const float* a = reflectance.row(y);
        for (int x = 0; x < width; ++x) out[x] = own[x] + out[x] / a[x];
    });
    std::swap(light.values, result.values);
}

}  // namespace dapple
