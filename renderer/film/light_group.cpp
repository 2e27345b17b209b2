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
    const double exact = luminous_flux(group.spectrum);
    const double drawn = colour.y.sum();
    colour.luminance_ratio = drawn > 0 ? static_cast<float>(exact / drawn) : 1.0F;
    return colour;
}

}  // namespace dapple
