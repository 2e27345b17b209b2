// Light of eight wavelengths in parts of neighbours, each at the mean of its wavelengths' places.
#pragma once

#include <algorithm>

#include "transport/stage.h"

namespace dapple {

// The fewest parts, 1, 2, 4 or 8, that keep every wavelength within `most_off` of its place.
// `span`: how far apart the outermost wavelengths are. Neighbouring ones are a seventh of it apart.
// In a part of n neighbours, the outer ones are (n - 1)/2 such steps from the middle.
inline int wavelength_parts(float span, float most_off) {
    int parts = 1;
    const float step = span / (kSpectrumSize - 1);
    while (parts < kSpectrumSize &&
           0.5F * static_cast<float>(kSpectrumSize / parts - 1) * step > most_off) {
        parts *= 2;
    }
    return parts;
}

// Calls visit(part of the light, how far its coordinate is from the hero's) for each part. The hero
// decides which wavelengths share a part. Otherwise a wavelength would be moved the same way in
// every pass.
template <class Visit>
void visit_wavelength_parts(const WavelengthCoordinate& coordinate,
                            int hero,
                            int parts,
                            const Spectrum& light,
                            const Visit& visit) {
    const int per_part = kSpectrumSize / parts;
    const int offset = (hero - coordinate.shortest + kSpectrumSize) % per_part;
    for (int first = -offset; first < kSpectrumSize; first += per_part) {
        const int from = std::max(first, 0);
        const int to = std::min(first + per_part, kSpectrumSize);
        Spectrum part(0.0F);
        float mean = 0;
        for (int i = from; i < to; ++i) {
            // Wavelengths are stored in a rotated order, which can begin anywhere in the spectrum.
            const int j = (coordinate.shortest + i) % kSpectrumSize;
            part[j] = light[j];
            mean += coordinate[j] / static_cast<float>(to - from);
        }
        visit(part, mean - coordinate[hero]);
    }
}

}  // namespace dapple
