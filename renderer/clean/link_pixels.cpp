#include "clean/link_pixels.h"

#include <algorithm>
#include <cmath>

namespace dapple {

Tuning tuning;

namespace {

float likeness(const FirstHits& hits, size_t i, size_t j) {
    if (hits.surface[i] != hits.surface[j] || !std::isfinite(hits.depth[i])) return 0;
    if (!std::isfinite(hits.depth[j])) return 0;
    const float turn = 1 - glm::dot(hits.normal[i], hits.normal[j]);
    const float w_normal = std::max(0.0F, 1 - turn / 0.08F);
    const Vec3 d = hits.position[j] - hits.position[i];
    const float off = std::max(std::abs(glm::dot(d, hits.normal[i])),
                               std::abs(glm::dot(d, hits.normal[j])));
    const float tolerance = 0.12F * glm::length(d) + 0.7F * std::min(hits.footprint_m[i], hits.footprint_m[j]);
    const float w_plane = std::max(0.0F, 1 - off / std::max(tolerance, 1e-9F));
    return w_normal * std::min(1.0F, 2 * w_plane);
}

}  // namespace

std::vector<Links> make_feature_links(const FirstHits& hits, int step) {
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
            l.weights = Plane(hits.width, hits.height);
            for_each_row(hits.height, [&](int y) {
                if (y + l.dy >= hits.height) return;
                for (int x = std::max(0, -l.dx); x < std::min(hits.width, hits.width - l.dx); ++x) {
                    const auto i = static_cast<size_t>(y * hits.width + x);
                    const auto j = static_cast<size_t>((y + l.dy) * hits.width + x + l.dx);
                    l.weights[i] = likeness(hits, i, j);
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
