#include "clean/link_pixels.h"

#include <algorithm>
#include <cmath>

namespace dapple {

Tuning tuning;

std::vector<Links> make_feature_links(const SeenPoints& seen, const std::vector<char>& alone, int step) {
    std::vector<Links> links;
    const float k3[2] = {1, 0.5F};
    const float k5[3] = {1, 4.0F/6, 1.0F/6};
    const int reach = tuning.wide ? 2 : 1;
    for (int dy = 0; dy <= reach; ++dy) {
        for (int dx = dy == 0 ? 1 : -reach; dx <= reach; ++dx) {
            Links l;
            l.dx = dx * step;
            l.dy = dy * step;
            l.kernel = tuning.wide ? k5[std::abs(dx)] * k5[dy] : k3[std::abs(dx)] * k3[dy];
            l.weights = Plane(seen.width, seen.height);
            for_each_row(seen.height, [&](int y) {
                if (y + l.dy >= seen.height) return;
                for (int x = std::max(0, -l.dx); x < std::min(seen.width, seen.width - l.dx); ++x) {
                    const auto i = static_cast<size_t>(y * seen.width + x);
                    const auto j = static_cast<size_t>((y + l.dy) * seen.width + x + l.dx);
                    if (alone[i] != 0 || alone[j] != 0) continue;
                    l.weights[i] = likeness(seen.pixels[i], seen.pixels[j]);
                }
            });
            links.push_back(std::move(l));
        }
    }
    return links;
}

void test_links(const GuideImages& guide, int level, std::vector<Links>& links) {
    const int width = guide.light.width;
    const int height = guide.light.height;
    Plane light(width, height), noise(width, height), light_sums(width, height), noise_sums(width, height);
    for (Links& l : links) {
        for_each_row(height, [&](int y) {
            float* a = light.row(y);
            float* b = noise.row(y);
            std::fill(a, a + width, 0.0F);
            std::fill(b, b + width, 0.0F);
            if (y + l.dy >= height) return;
            const float* w = l.weights.row(y);
            const float* f = guide.light.row(y);
            const float* h = guide.noise.row(y);
            const float* f2 = guide.light.row(y + l.dy) + l.dx;
            const float* h2 = guide.noise.row(y + l.dy) + l.dx;
            for (int x = std::max(0, -l.dx); x < std::min(width, width - l.dx); ++x) {
                const float df = f[x] - f2[x];
                const float dh = h[x] - h2[x];
                a[x] = w[x] * df * df;
                b[x] = w[x] * dh * dh;
            }
        });
        const int radius = static_cast<int>(tuning.box[level]);
        make_box_sums(light, radius, light_sums);
        make_box_sums(noise, radius, noise_sums);
        for_each_row(height, [&](int y) {
            float* w = l.weights.row(y);
            const float* a = light_sums.row(y);
            const float* b = noise_sums.row(y);
            for (int x = 0; x < width; ++x) {
                const float ratio = a[x] / (b[x] + 1e-20F);
                const float over = std::max(0.0F, ratio - tuning.free) * tuning.kappa;
                w[x] *= 1 / (1 + (tuning.power > 1 ? over * over : over));
            }
        });
    }
}

}  // namespace dapple
