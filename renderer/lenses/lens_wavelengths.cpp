#include "lenses/lens_wavelengths.h"

#include "base/units.h"
#include "spectrum/observer.h"

namespace dapple {

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
