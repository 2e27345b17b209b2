#include "clean/sure_colours.h"

#include <algorithm>
#include <map>

#include "math/vec.h"

namespace dapple {

namespace {

constexpr int kNear = 4;  // px
constexpr float kDoubt = 2;
constexpr float kHardlyShows = 0.1F;  // noise of colour over luminance
constexpr float kLeastNoise = 1e-4F;  // squared, over that of the luminance

// ⟨h²⟩ of both colours together, less what hardly shows.
Plane noise_squares(const std::vector<Plane>& noise, const Plane& luminance) {
    const auto sums_of = [&](const auto& value_at) {
        return box_sums(make_plane(luminance.width, luminance.height, value_at), kNear);
    };
    const Plane counts = sums_of([](size_t) { return 1; });
    const Plane squares =
        sums_of([&](size_t i) { return square(noise[0][i]) + square(noise[1][i]); });
    const Plane light = sums_of([&](size_t i) { return square(luminance[i]); });
    return make_plane(luminance.width, luminance.height, [&](size_t i) {
        return std::max(0.0F, squares[i] - square(kHardlyShows) * light[i]) / counts[i];
    });
}

// b of the channels, by surface.
using UsualColours = std::map<int, std::array<float, 3>>;

UsualColours usual_colours(const SeenPoints& seen,
                           const ColourPlanes& all,
                           const Plane& luminance,
                           const Plane& noise) {
    std::map<int, std::array<double, 4>> sums;  // of colours and of light
    for (size_t i = 0; i < luminance.size(); ++i) {
        const float light = luminance[i];
        if (!(light > 0)) continue;
        const float weight = light / (kLeastNoise * square(light) + noise[i]);
        std::array<double, 4>& sum = sums[seen.pixels[i].surface];
        for (size_t c = 0; c < 3; ++c) sum[c] += static_cast<double>(weight * (all[c][i] - light));
        sum[3] += static_cast<double>(weight * light);
    }
    UsualColours usual;
    for (const auto& [surface, sum] : sums) {
        for (size_t c = 0; c < 3; ++c) usual[surface][c] = static_cast<float>(sum[c] / sum[3]);
    }
    return usual;
}

}  // namespace

void keep_sure_colours(const SeenPoints& seen,
                       const std::vector<Plane>& noise,
                       std::vector<ColourPlanes>& layers) {
    const ColourPlanes& all = layers.front();
    const Plane luminance = luminance_of(all);
    const Plane noise2 = noise_squares(noise, luminance);
    const UsualColours by_surface = usual_colours(seen, all, luminance, noise2);
    // 1 + b of all channels.
    const auto usual = [&](size_t i) -> std::array<float, 3> {
        const auto found = by_surface.find(seen.pixels[i].surface);
        if (found == by_surface.end()) return {1, 1, 1};
        return {1 + found->second[0], 1 + found->second[1], 1 + found->second[2]};
    };
    const Plane own = box_sums(make_plane(luminance.width,
                                          luminance.height,
                                          [&](size_t i) {
                                              const std::array<float, 3> base = usual(i);
                                              const float red = all[0][i] - base[0] * luminance[i];
                                              const float blue = all[2][i] - base[2] * luminance[i];
                                              return square(red) + square(0.5F * blue);
                                          }),
                               kNear);
    const Plane counts = box_sums(Plane(own.width, own.height, 1), kNear);
    for (ColourPlanes& layer : layers) {
        const Plane light = luminance_of(layer);
        for (size_t i = 0; i < own.size(); ++i) {
            const float doubt = kDoubt * noise2[i] * counts[i];
            const float keep = own[i] > doubt ? 1 - doubt / own[i] : 0.0F;
            const std::array<float, 3> base = usual(i);
            for (size_t c = 0; c < 3; ++c) {
                const float plain = base[c] * light[i];
                layer[c][i] = plain + keep * (layer[c][i] - plain);
            }
        }
    }
}

}  // namespace dapple
