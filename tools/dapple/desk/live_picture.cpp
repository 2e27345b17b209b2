#include "desk/live_picture.h"

#include "clean/finer_frame.h"
#include "develop/exposure.h"

namespace dapple {

Picture finer_picture(const RenderResult& result, const Scene& scene, const GlareFrame& glare) {
    const CoarseLight light =
        clean_coarse_light(result.film, result.seen, white_luminance(scene.camera));
    CleanFrame frame = make_finer(light, result.seen, result.fine);
    for (const std::vector<Xyz>& layer : glare.layers) add_coarse(layer, result.fine.step, frame);
    return develop_display(develop_linear(frame, scene.camera));
}

Picture clean_picture(const CleanFrame& clean, const Camera& camera, const GlareFrame& glare) {
    Picture linear = develop_linear(clean, camera);
    add_glare(glare, camera, linear);
    return develop_display(linear);
}

}  // namespace dapple
