#include "plausible/camera/find_lens_doubts.h"

#include <cmath>

#include "lenses/real_lens.h"
#include "plausible/in_words.h"
#include "scene/checks.h"

namespace dapple {

Doubts find_lens_doubts(const StagedSet& set) {
    const Camera& camera = set.scene.camera;
    if (!camera.lens.is_glass()) return {};
    const RealLens lens(camera);
    if (!lens.is_wide_open()) return {};
    const Field<double>& written = set.written.camera.f_number;
    const double asked = written.given ? written.value : static_cast<double>(camera.f_number);
    if (std::abs(lens.f_number() / asked - 1) < 0.03) return {};  // a tenth of a stop
    const std::string widest = "f/" + number_text(std::round(100 * lens.f_number()) / 100);
    return {doubt_at(written,
                     "is " + number_text(asked) + ", but the lens opens only to " + widest +
                         "; ghosts and stars are those of " + widest +
                         ", the exposure is that of f/" + number_text(asked))};
}

}  // namespace dapple
