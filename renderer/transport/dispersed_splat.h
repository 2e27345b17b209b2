// A splat whose wavelengths dispersive glass has sent to different places in the frame (E78).
//
// Where all eight wavelengths land near each other, the light walk stands for all of them. The
// splat then has 1, 2, 4 or 8 parts of neighbouring wavelengths, so that no wavelength is drawn
// more than about 0.3 px from its place.
#pragma once

#include "transport/light_sink.h"
#include "transport/photon_differential.h"

namespace dapple {

class DispersedSplat {
  public:
    DispersedSplat(const Stage& stage,
                   const Walk& walk,
                   const Vertex& vertex,
                   const PhotonDifferential& differential);

    // Whether the wavelengths land near enough for the walk to stand for all of them.
    bool lands_whole() const { return lands_whole_; }

    // Lays out the parts of the splat in `room` and returns those that are used. `hero_raster` is
    // the place of the hero wavelength.
    using Room = std::array<SplatPart, kSpectrumSize>;
    std::span<const SplatPart> lay_out(const Vec2& hero_raster,
                                       const Spectrum& luminance,
                                       Room& room) const;

  private:
    const WavelengthCoordinate& coordinate_;
    int hero_;
    Vec2 per_unit_{0};   // px per unit of the wavelength coordinate
    float span_px_ = 0;  // how far apart the outermost wavelengths land
    bool lands_whole_ = false;
};

}  // namespace dapple
