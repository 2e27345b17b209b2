// Puts what walks find on the film: a fixture's light goes to each of its groups, and a light
// walk's splat to the pixels around it.
//
// A splat has a footprint: an ellipse, weights 1 - q (E53) with q the square of the distance in its
// half-axes, over the pixels that see the same surface (same material, nearly the same plane). The
// weights sum to one: light is moved by a little, none is made or lost. Where the walk knows the
// spot that it stands for (transport/photon_differential.h) the ellipse is that, its half-axes kept
// between two radii; else a disc. Below three quarters of a pixel: its own pixel.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "film/film.h"
#include "film/meter_film.h"
#include "render/seen_surfaces.h"
#include "scene/scene.h"
#include "transport/lens.h"
#include "transport/light_sink.h"

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

    void add_splat(std::span<const SplatPart> parts,
                   const Footprint& footprint,
                   const SurfacePoint& at,
                   int fixture) override;
    void add_reading(int meter, int fixture, const Spectrum& lux) override {
        meters_.add(meter, fixture, lux);
    }
    std::unique_ptr<LightSink> for_some_walks() override;

    // What a camera walk found; its pixel is no other thread's.
    void add_pixel(int pixel, int fixture, const Spectrum& luminance);

  private:
    class LateSplats;

    static constexpr int kTile = SeenSurfaces::kTile;
    static_assert(kTile == PixelRun::kMost);
    static constexpr float kOnePixel = 0.75F;
    static constexpr float kMostWidening = 4;
    // As many as any ellipse within kMostRadius can have, in whole tiles; parts share them.
    static constexpr size_t kMostRows = 2 * static_cast<size_t>(kMostRadius) + 2;
    static constexpr size_t kMostRuns = kMostRows * (kMostRows / kTile + 2);

    struct Ellipse;
    struct Box;
    struct Spread;
    static Ellipse disc(float radius);
    static Ellipse ellipse_of(const Footprint& footprint, float least, float most);
    bool is_in_frame(const Vec2& raster) const {
        return raster.x >= 0 && raster.y >= 0 && raster.x < static_cast<float>(film_.width()) &&
               raster.y < static_cast<float>(film_.height());
    }
    std::optional<Ellipse> covered(const Footprint& footprint) const;
    void begin(std::span<const SplatPart> parts, int fixture, Spread& spread) const;
    bool spread(const Ellipse& e, const SurfacePoint& at, Spread& s) const;
    Box box_around(const Ellipse& e, const Spread& s) const;
    void spread_tile(const Ellipse& e, const SurfacePoint& at, const Box& box, Spread& s) const;
    void add(const Spread& spread);
    // All of it in the pixel where it falls; asks for its memory ahead.
    glm::ivec2 pixel_of(const SplatPart& part) const;
    void fetch_point(const SplatPart& part, int fixture) const;
    void add_point(const SplatPart& part, int fixture);

    Film& film_;
    MeterFilm& meters_;
    const FixtureGroups& groups_;
    SeenSurfaces seen_;
    Radii radii_;
};

}  // namespace dapple
