// Puts what walks find on the film: a fixture's light goes to each of its groups, and a light
// walk's splat to the pixels around it.
//
// A splat has a footprint: the disc of a given radius in pixels, weights 1 - (d/r)² (E53), over the
// pixels that see the same surface (same material, nearly the same plane). The weights sum to one:
// light is moved by a pixel or two, none is made or lost. Radius below kOnePixel: its own pixel.
#pragma once

#include <vector>

#include "film/film.h"
#include "film/first_hits.h"
#include "film/meter_film.h"
#include "scene/scene.h"
#include "transport/lens.h"
#include "transport/light_walk.h"

namespace dapple {

// The light groups of all fixtures, and where each fixture's begin.
struct FixtureGroups {
    std::vector<LightGroup> groups;
    std::vector<int> first;  // per fixture, one more at the end
};

FixtureGroups make_fixture_groups(const Scene& scene);

class FilmSink final : public LightSink {
  public:
    FilmSink(Film& film,
             MeterFilm& meters,
             const FixtureGroups& groups,
             const FirstHits& first_hits,
             const Lens& lens);

    void set_footprint(float radius_px) { radius_ = radius_px; }

    void add_splat(const Vec2& raster,
                   const SurfacePoint& at,
                   int fixture,
                   const Spectrum& luminance) override;
    void add_reading(int meter, int fixture, const Spectrum& lux) override {
        meters_.add(meter, fixture, lux);
    }

    void add(std::span<const PixelShare> shares, int fixture, const Spectrum& luminance);

  private:
    bool sees_same_surface(size_t pixel, const SurfacePoint& at) const;

    static constexpr float kOnePixel = 0.75F;
    static constexpr int kMostPixels = 400;

    Film& film_;
    MeterFilm& meters_;
    const FixtureGroups& groups_;
    const FirstHits& first_hits_;
    std::vector<Point> positions_;  // of the first hits
    float radius_ = 0;
};

}  // namespace dapple
