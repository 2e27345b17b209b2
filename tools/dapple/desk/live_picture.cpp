#include "desk/live_picture.h"

#include "clean/finer_frame.h"
#include "develop/exposure.h"

namespace dapple {

Picture finer_picture(const RenderResult& result,
                      const Scene& scene,
                      const GlareFrame& glare,
                      const KeptLight* others) {
    CoarseLight light = clean_coarse_light(result.film, result.seen, white_luminance(scene.camera));
    if (others) add_kept_light(*others, result.seen, light);
    CleanFrame frame = make_finer(light, result.seen, result.fine);
    for (const std::vector<Xyz>& layer : glare.layers) add_coarse(layer, result.fine.step, frame);
    return develop_display(develop_linear(frame, scene.camera));
}

KeptLight kept_light_of(const RenderResult& result, const Scene& scene) {
    return {clean_coarse_light(result.film, result.seen, white_luminance(scene.camera)),
            result.seen};
}

}  // namespace dapple
