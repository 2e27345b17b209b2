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

    // What a camera walk found; its pixel is no other thread's.
    void add_pixel(int pixel, int fixture, const Spectrum& luminance);

  private:
    // What a pixel sees first.
    struct alignas(32) Seen {
        Point position{0};
        float footprint_m = 0;
        Normal normal{0};
        int32_t surface = -1;
    };
    static constexpr int kTile = 8;  // px
    static constexpr float kOnePixel = 0.75F;
    static constexpr float kMostWidening = 4;
    // As many as any ellipse within kMostRadius can have, in whole tiles; one tile to spare.
    static constexpr size_t kMostRows = 2 * static_cast<size_t>(kMostRadius) + 2;
    static constexpr size_t kMostShares = kMostRows * (kMostRows + 2 * kTile) + kTile;

    struct Ellipse;
    struct Shares;
    static Ellipse disc(float radius);
    static Ellipse ellipse_of(const Footprint& footprint, float least, float most);
    bool sees_same_surface(const Seen& seen, const SurfacePoint& at, float reach_px) const;
    bool is_flat(int first_x, int first_y) const;
    void spread(const Ellipse& e, const Vec2& raster, const SurfacePoint& at, Shares& s) const;
    void spread_tile(const Ellipse& e,
                     const Vec2& raster,
                     const SurfacePoint& at,
                     int x,
                     int y,
                     Shares& shares) const;
    void spread_row(
        const Ellipse& e, const Vec2& raster, const SurfacePoint& at, int y, Shares& shares) const;

    Film& film_;
    MeterFilm& meters_;
    const FixtureGroups& groups_;
    std::vector<Seen> seen_;  // by pixel
    int tiles_across_ = 0;
    std::vector<uint8_t> flat_;  // by tile: all its pixels see one plane
    Radii radii_;
};

}  // namespace dapple
