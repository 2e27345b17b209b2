// Adds the light that walks find to the film. A fixture's light goes to each of its light groups. A
// light walk's splat is distributed over the pixels around it (E107; splat_layout.h).
#pragma once

#include <memory>
#include <span>

#include "film/film.h"
#include "film/meter_film.h"
#include "render/fixture_groups.h"
#include "render/haze_glow.h"
#include "render/seen_surfaces.h"
#include "render/splat_ellipse.h"
#include "transport/light_sink.h"

namespace dapple {

class FilmSink final : public LightSink {
  public:
    FilmSink(Film& film,
             MeterFilm& meters,
             const FixtureGroups& groups,
             const FirstHits& first_hits,
             const Lens& lens);

    // Where the glow of haze is kept until it is spread.
    void set_glow(HazeGlow* glow) { glow_ = glow; }
    void set_radii(const SplatRadii& radii) { radii_ = radii; }

    void add_splat(std::span<const SplatPart> parts,
                   const Footprint& footprint,
                   const SurfacePoint& at,
                   int fixture) override;
    void add_reading(int meter, int fixture, const Spectrum& lux) override {
        meters_.add(meter, fixture, lux);
    }
    std::unique_ptr<LightSink> make_buffered(int half) override;

    // Adds the light of a pixel's camera walks. No other thread may add to this pixel meanwhile.
    void add_pixel(int pixel, int fixture, const Spectrum& luminance);
    bool keeps_glow() const { return glow_ != nullptr; }
    void add_glow(HazeGlow::Kind kind, int pixel, int fixture, const Spectrum& luminance);

  private:
    class LateSplats;

    bool is_in_frame(const Vec2& raster) const {
        return raster.x >= 0 && raster.y >= 0 && raster.x < static_cast<float>(film_.width()) &&
               raster.y < static_cast<float>(film_.height());
    }
    // The pixel of a part that is added as a point.
    glm::ivec2 pixel_of(const SplatPart& part) const;
    void fetch_point(const SplatPart& part, int fixture) const;
    void add_point(const SplatPart& part, int fixture, int half);

    Film& film_;
    MeterFilm& meters_;
    const FixtureGroups& groups_;
    SeenSurfaces seen_;
    SplatRadii radii_;
    HazeGlow* glow_ = nullptr;
};

}  // namespace dapple
