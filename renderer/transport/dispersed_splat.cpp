#include "transport/dispersed_splat.h"

#include "transport/wavelength_parts.h"

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

std::span<const SplatPart> DispersedSplat::lay_out(const Vec2& hero_raster,
                                                   const Spectrum& luminance,
                                                   Room& room) const {
    constexpr float kMostOff_px = 0.3F;
    const int parts = lands_whole_ ? wavelength_parts(span_px_, kMostOff_px) : 1;
    if (parts == 1) {
        room[0] = {hero_raster, luminance};
        return {room.data(), 1};
    }
    size_t count = 0;
    visit_wavelength_parts(
        coordinate_, hero_, parts, luminance, [&](const Spectrum& part, float from_hero) {
            room[count++] = {hero_raster + per_unit_ * from_hero, part};
        });
    return {room.data(), count};
}

}  // namespace dapple
