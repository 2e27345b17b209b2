// Puts what walks find on the film: a fixture's light goes to each of its groups, and a light
// walk's splat to the pixels around it.
//
// A splat has a footprint: an ellipse, weights 1 - q (E53) with q the square of the distance in its
// half-axes, over the pixels that see the same surface (same material, nearly the same plane). The
// weights sum to one: light is moved by a little, none is made or lost. Where the walk knows the
// spot that it stands for (transport/photon_differential.h) the ellipse is that, its half-axes kept
// between two radii; else a disc. Below three quarters of a pixel: its own pixel.
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

    static constexpr float kMostRadius = 16;  // px

    // Radii of a pass, px.
    struct Radii {
        float unknown = 0;  // of splats whose spot is not known
        float least = 0;    // of the others
        float most = 0;
    };
    void set_footprint(const Radii& radii) { radii_ = radii; }

    void add_splat(const Vec2& raster,
                   const Footprint& footprint,
                   const SurfacePoint& at,
                   int fixture,
                   const Spectrum& luminance) override;
    void add_reading(int meter, int fixture, const Spectrum& lux) override {
        meters_.add(meter, fixture, lux);
    }

    void add(std::span<const PixelShare> shares, int fixture, const Spectrum& luminance);

  private:
    bool sees_same_surface(size_t pixel, const SurfacePoint& at, float reach_px) const;

    static constexpr float kOnePixel = 0.75F;
    static constexpr int kMostPixels = 1024;  // more than any ellipse within kMostRadius has

    Film& film_;
    MeterFilm& meters_;
    const FixtureGroups& groups_;
    const FirstHits& first_hits_;
    std::vector<Point> positions_;  // of the first hits
    Radii radii_;
};

}  // namespace dapple
