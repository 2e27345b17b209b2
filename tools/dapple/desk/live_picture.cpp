#include "desk/live_picture.h"

#include <algorithm>

#include "clean/finer_frame.h"
#include "develop/exposure.h"

namespace dapple {

namespace {

// The glare by coarse pixel. Where it takes away from light that is left in its pixel, as from a
// lamp's face whose light the lens spreads, it is taken from there: interpolated, it would leave a
// dark ring.
std::vector<Xyz> add_to_held(const GlareFrame& glare, CoarseLight& light) {
    std::vector<Xyz> sum(light.by_pixel[0].size(), Xyz(0));
    for (const std::vector<Xyz>& layer : glare.layers) {
        for (size_t i = 0; i < layer.size(); ++i) sum[i] += layer[i];
    }
    for (size_t i = 0; i < sum.size(); ++i) {
        if (!(sum[i].y < 0)) continue;
        const Rgb taken(linear_rec709_from_xyz() * sum[i]);
        for (size_t c = 0; c < 3; ++c) {
            light.held[c][i] = std::max(0.0F, light.held[c][i] + taken[static_cast<int>(c)]);
        }
        sum[i] = Xyz(0);
    }
    return sum;
}

}  // namespace

Picture finer_picture(const RenderResult& result,
                      const Scene& scene,
                      const GlareFrame& glare,
                      const KeptLight* others) {
    CoarseLight light = clean_coarse_light(result.film, result.seen, white_luminance(scene.camera));
    if (others) add_kept_light(*others, result.seen, light);
    const std::vector<Xyz> glare_light = add_to_held(glare, light);
    CleanFrame frame = make_finer(light, result.seen, result.fine);
    if (glare.is_there()) add_coarse(glare_light, result.fine.step, frame);
    return develop_display(develop_linear(frame, scene.camera));
}

KeptLight kept_light_of(const RenderResult& result, const Scene& scene) {
    return {clean_coarse_light(result.film, result.seen, white_luminance(scene.camera)),
            result.seen};
}

Picture clean_picture(const CleanFrame& clean, const Camera& camera, const GlareFrame& glare) {
    Picture linear = develop_linear(clean, camera);
    add_glare(glare, camera, linear);
    return develop_display(linear);
}

}  // namespace dapple
