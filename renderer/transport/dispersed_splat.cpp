#include "transport/dispersed_splat.h"

#include <algorithm>

namespace dapple {

DispersedSplat::DispersedSplat(const Stage& stage,
                               const Walk& walk,
                               const Vertex& vertex,
                               const PhotonDifferential& differential)
    : coordinate_(stage.wavelength_coordinate), hero_(walk.light.hero) {
    // A lens that parts the colours has placed the hero's light alone.
    if (stage.lens.splits_colours()) return;
    if (!walk.light.monochromatic || !differential.is_known()) return;
    per_unit_ = stage.lens.raster_change(vertex.at.position, differential.dispersion());
    // This test must have the same result for every hero. Otherwise some wavelengths would count
    // twice and others not at all.
    span_px_ = coordinate_.span * glm::length(per_unit_);
    lands_whole_ = span_px_ < stage.dispersion_limit;
}

// The fewest parts that keep every wavelength within kMostOff_px of its place. Neighbouring
// wavelengths are a seventh of the span apart. In a part of n neighbours, the outer ones are
// (n - 1)/2 such steps from the middle.
int DispersedSplat::parts_needed() const {
    constexpr float kMostOff_px = 0.3F;
    int parts = 1;
    const float step = span_px_ / (kSpectrumSize - 1);
    while (parts < kSpectrumSize &&
           0.5F * static_cast<float>(kSpectrumSize / parts - 1) * step > kMostOff_px) {
        parts *= 2;
    }
    return parts;
}

std::span<const SplatPart> DispersedSplat::lay_out(const Vec2& hero_raster,
                                                   const Spectrum& luminance,
                                                   Room& room) const {
    const int parts = lands_whole_ ? parts_needed() : 1;
    if (parts == 1) {
        room[0] = {hero_raster, luminance};
        return {room.data(), 1};
    }
    // Neighbours in the spectrum share a part, at the mean of their places. The hero decides which
    // wavelengths share one. Otherwise a wavelength would be moved the same way in every pass.
    const int per_part = kSpectrumSize / parts;
    const int offset = (hero_ - coordinate_.shortest + kSpectrumSize) % per_part;
    size_t count = 0;
    for (int first = -offset; first < kSpectrumSize; first += per_part) {
        const int from = std::max(first, 0);
        const int to = std::min(first + per_part, kSpectrumSize);
        SplatPart& part = room[count++];
        float coordinate = 0;
        for (int i = from; i < to; ++i) {
            // Wavelengths are stored in a rotated order, which can begin anywhere in the spectrum.
            const int j = (coordinate_.shortest + i) % kSpectrumSize;
            part.luminance[j] = luminance[j];
            coordinate += coordinate_[j] / static_cast<float>(to - from);
        }
        part.raster = hero_raster + per_unit_ * (coordinate - coordinate_[hero_]);
    }
    return {room.data(), count};
}

}  // namespace dapple
