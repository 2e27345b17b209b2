// The eight wavelengths at which light is traced through a lens: the middles of eight bands that
// cover the visible range. A group's light in a band is integrated exactly, so only what the glass
// does is taken as equal within a band.
#pragma once

#include <array>

#include "math/vec.h"
#include "spectrum/curve.h"
#include "spectrum/spectrum.h"
#include "spectrum/wavelengths.h"

namespace dapple {

inline constexpr std::array<double, kSpectrumSize + 1> kLensBandEdges = {
    380, 440, 475, 505, 535, 565, 595, 630, 780};  // nm

// nm; the middle of each band, at its ends where the eye still sees something.
inline constexpr std::array<double, kSpectrumSize> kLensWavelengths = {
    428, 458, 490, 520, 550, 580, 612, 655};

// A value that is known at kLensWavelengths, at other wavelengths: linear in between.
Spectrum between_bands(const Spectrum& at_bands, const Spectrum& nm);

// XYZ of each band of a group's spectrum, so that all bands add up to the group's XYZ per lumen.
std::array<Xyz, kSpectrumSize> band_xyz(const Curve& spectrum);

}  // namespace dapple
