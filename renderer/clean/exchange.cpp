#include "clean/exchange.h"

#include <algorithm>

namespace dapple {

namespace {

// Calls visit(first x, last x + 1, weights, offset) for the links of row y in both directions: the
// pixels x and x + offset have the link weights[x].
template <class Visit>
void for_each_link(const std::vector<Links>& links, int y, const Visit& visit) {
    for (const Links& l : links) {
        const int width = l.weights.width;
        const std::ptrdiff_t offset = static_cast<std::ptrdiff_t>(l.dy) * width + l.dx;
        const float* const weights = l.weights.row(y);
        if (y + l.dy < l.weights.height) {
            visit(std::max(0, -l.dx), std::min(width, width - l.dx), weights, offset);
        }
        if (y - l.dy >= 0) {
            visit(std::max(0, l.dx), std::min(width, width + l.dx), weights - offset, -offset);
        }
    }
}

}  // namespace

Exchange::Exchange(const std::vector<Links>& links)
    : links_(links), weight_sums_(links.front().weights.width, links.front().weights.height, 1.0F) {
    for_each_row(weight_sums_.height, [&](int y) {
        float* const sums = weight_sums_.row(y);
        for_each_link(links, y, [&](int begin, int end, const float* weights, std::ptrdiff_t) {
            for (int x = begin; x < end; ++x) sums[x] += weights[x];
        });
    });
}

// (1/A_i) Σ_j c_ij value(i, j), for the numbers of pixels i and j.
template <class Value>
Plane Exchange::sum_links(const Plane& amounts, const Value& value) const {
    const int width = amounts.width;
    const Plane shares =
        make_plane(width, amounts.height, [&](size_t i) { return amounts[i] / weight_sums_[i]; });
    Plane result(width, amounts.height);
    for_each_row(amounts.height, [&](int y) {
        const std::ptrdiff_t first = static_cast<std::ptrdiff_t>(y) * width;
        const float* const share = shares.row(y);
        float* const out = result.row(y);
        for_each_link(
            links_, y, [&](int begin, int end, const float* weights, std::ptrdiff_t offset) {
                for (int x = begin; x < end; ++x) {
                    const float c = weights[x] * std::min(share[x], share[x + offset]);
                    out[x] += c * value(first + x, first + x + offset);
                }
            });
        const float* const amount = amounts.row(y);
        for (int x = 0; x < width; ++x) out[x] /= amount[x];
    });
    return result;
}

Plane Exchange::apply(const Plane& amounts, const Plane& light) const {
    const float* const own = light.values.data();
    Plane result =
        sum_links(amounts, [own](std::ptrdiff_t i, std::ptrdiff_t j) { return own[j] - own[i]; });
    for_each_pixel(result, [&](size_t i) { result[i] += own[i]; });
    return result;
}

Plane Exchange::own_weights(const Plane& amounts) const {
    Plane result = sum_links(amounts, [](std::ptrdiff_t, std::ptrdiff_t) { return 1.0F; });
    for_each_pixel(result, [&](size_t i) { result[i] = 1 - result[i]; });
    return result;
}

}  // namespace dapple
