#include "clean/link_pixels.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "math/vec.h"

namespace dapple {

namespace {

constexpr std::array<int, kLevels> kTestRadius = {6, 8, 10, 14, 20, 28};  // px, of ⟨ ⟩
constexpr float kFree = 1.1F;  // ratios below this are noise
constexpr float kSteepness = 1.3F;

// Calls body(row of i, row of j, first x, last x + 1) for the rows that have a partner.
template <class Body>
void for_each_pair_row(const Links& links, const Body& body) {
    const int width = links.weights.width;
    const int rows = links.weights.height - links.dy;
    for_each_row(std::max(0, rows), [&](int y) {
        body(y, y + links.dy, std::max(0, -links.dx), std::min(width, width - links.dx));
    });
}

void link_alike(const SeenPoints& seen, const std::vector<char>& alone, Links& links) {
    const float across = links.dx == 0 || links.dy == 0 ? 1.0F : 0.5F;
    const float kernel = 0.5F * across;  // the pixel itself counts as 1
    const float apart = std::hypot(static_cast<float>(links.dx), static_cast<float>(links.dy));
    for_each_pair_row(links, [&](int row, int partner_row, int begin, int end) {
        for (int x = begin; x < end; ++x) {
            const auto i = static_cast<size_t>(row * seen.width + x);
            const auto j = static_cast<size_t>(partner_row * seen.width + x + links.dx);
            if (alone[i] != 0 || alone[j] != 0) continue;
            links.weights[i] = kernel * likeness(seen.pixels[i], seen.pixels[j], apart);
        }
    });
}

// w Σ (a_i - a_j)² for each pair, over all images a.
Plane weighted_squares(const Links& links, const std::vector<Plane>& images) {
    Plane squares(links.weights.width, links.weights.height);
    for_each_pair_row(links, [&](int row, int partner_row, int begin, int end) {
        const float* const weights = links.weights.row(row);
        float* const out = squares.row(row);
        for (const Plane& image : images) {
            const float* const own = image.row(row);
            const float* const other = image.row(partner_row) + links.dx;
            for (int x = begin; x < end; ++x) out[x] += weights[x] * square(own[x] - other[x]);
        }
    });
    return squares;
}

}  // namespace

std::vector<Links> make_links(const SeenPoints& seen, const std::vector<char>& alone, int level) {
    const int step = 1 << level;
    std::vector<Links> all;
    for (const glm::ivec2 offset : {glm::ivec2(1, 0), {-1, 1}, {0, 1}, {1, 1}}) {
        all.push_back({offset.x * step, offset.y * step, Plane(seen.width, seen.height)});
        link_alike(seen, alone, all.back());
    }
    return all;
}

void test_links(const GuideImages& guide, int level, std::vector<Links>& links) {
    const int radius = kTestRadius[static_cast<size_t>(level)];
    for (Links& l : links) {
        const Plane light = box_sums(weighted_squares(l, guide.light), radius);
        const Plane noise = box_sums(weighted_squares(l, guide.noise), radius);
        for_each_row(light.height, [&](int y) {
            float* const weights = l.weights.row(y);
            const float* const signal = light.row(y);
            const float* const expected = noise.row(y);
            for (int x = 0; x < light.width; ++x) {
                constexpr float kTiny = 1e-30F;  // both sums may be 0
                const float ratio = (signal[x] + kTiny) / (expected[x] + kTiny);
                const float over = kSteepness * std::max(0.0F, ratio - kFree);
                weights[x] /= square(1 + square(over));
            }
        });
    }
}

}  // namespace dapple
