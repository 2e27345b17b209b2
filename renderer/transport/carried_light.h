// The light that a walk carries at the pass's eight wavelengths.
//
// Dispersive refraction keeps only the hero wavelength, with eight times its weight (E42). The
// other wavelengths take nearly the same way. Until the next rough event, the walk therefore also
// stores what they would carry. Where they land close enough to the hero, the walk stands for all
// of them again.
#pragma once

#include "materials/scatter.h"
#include "spectrum/spectrum.h"

namespace dapple {

struct CarriedLight {
    Spectrum throughput{1.0F};
    // The throughput if no wavelength had been dropped since the last rough event.
    Spectrum undispersed{1.0F};
    int hero = 0;  // index of the wavelength that chooses directions at dispersive glass
    bool monochromatic = false;  // only the hero is left in `throughput`

    void multiply(const Spectrum& weight) {
        throughput *= weight;
        undispersed *= weight;
    }
    void multiply(const BsdfSample& sample) {
        throughput *= sample.weight;
        // On refraction every wavelength takes the hero's weight. The hero's factor of 8, which
        // stands for the dropped wavelengths, is left out of it.
        const float dropped = monochromatic ? 1.0F : 1.0F / kSpectrumSize;
        undispersed *= sample.dispersed ? Spectrum(sample.weight[hero] * dropped) : sample.weight;
    }
    // After a rough event the dropped wavelengths are dropped for good.
    void forget_dropped() { undispersed = throughput; }
    // Restores the dropped wavelengths.
    void stand_for_all_wavelengths() {
        if (!monochromatic) return;
        throughput = undispersed;
        monochromatic = false;
    }
};

}  // namespace dapple
