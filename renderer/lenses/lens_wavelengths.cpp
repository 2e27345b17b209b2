#include "lenses/lens_wavelengths.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "spectrum/observer.h"

namespace dapple {

Spectrum between_bands(const Spectrum& at_bands, const Spectrum& nm) {
    Spectrum result;
    for (int j = 0; j < kSpectrumSize; ++j) {
        size_t k = 1;
        while (k + 1 < kSpectrumSize && nm[j] > static_cast<float>(kLensWavelengths[k])) ++k;
        const auto low = static_cast<float>(kLensWavelengths[k - 1]);
        const auto high = static_cast<float>(kLensWavelengths[k]);
        const float t = std::clamp((nm[j] - low) / (high - low), 0.0F, 1.0F);
        const auto i = static_cast<int>(k);
        result[j] = std::lerp(at_bands[i - 1], at_bands[i], t);
    }
    return result;
}

std::array<Xyz, kSpectrumSize> band_xyz(const Curve& spectrum) {
    std::array<Xyz, kSpectrumSize> bands{};
    for (int i = 0; i < Curve::kSize; ++i) {
        size_t band = 0;
        while (band + 1 < bands.size() && Curve::nm(i) >= kLensBandEdges[band + 1]) ++band;
        const Observer& eye = cie_1931();
        bands[band] += kLuminousEfficacy * static_cast<double>(spectrum[i]) *
                       Xyz(static_cast<double>(eye.x[i]),
                           static_cast<double>(eye.y[i]),
                           static_cast<double>(eye.z[i]));
    }
    return bands;
}

}  // namespace dapple
