#include "film/light_group.h"

#include "spectrum/observer.h"

namespace dapple {

GroupColour make_group_colour(const LightGroup& group, const Wavelengths& wavelengths) {
    const Observer& o = cie_1931();
    Spectrum scale = group.spectrum.at(wavelengths);
    for (int j = 0; j < kSpectrumSize; ++j) {
        scale[j] *= static_cast<float>(kLuminousEfficacy) /
                    (static_cast<float>(kSpectrumSize) * wavelengths.pdf[j]);
    }
    GroupColour colour;
    colour.x = scale * o.x.at(wavelengths);
    colour.y = scale * o.y.at(wavelengths);
    colour.z = scale * o.z.at(wavelengths);
    const Xyz exact = kLuminousEfficacy * integrate_xyz(group.spectrum);
    const Xyz drawn(colour.x.sum(), colour.y.sum(), colour.z.sum());
    for (int c = 0; c < 3; ++c) {
        const double ratio = drawn[c] > 0 ? exact[c] / drawn[c] : 1.0;
        colour.ratios[static_cast<size_t>(c)] = static_cast<float>(ratio);
    }
    return colour;
}

}  // namespace dapple
