// A splat laid out over the pixels that see the surface where its light fell.
//
// The layout is a list of runs of eight pixels, each within one tile of SeenSurfaces. Every run has
// one set of weights for each part of the splat. A part's luminance is divided by the sum of its
// weights, so light is moved, but none is made or lost.
#pragma once

#include <array>
#include <span>

#include "film/film.h"
#include "render/seen_surfaces.h"
#include "render/splat_ellipse.h"

namespace dapple {

class SplatLayout {
  public:
    static constexpr float kMostRadius = 16;  // px, of any splat

    // The surface point where the splat is seen, and the light groups that it is added to.
    struct Target {
        const SurfacePoint& at;
        int first_group = 0;
        int groups = 0;  // number of light groups
        int half = 0;    // of the pass's light walks
    };
    // Lays a splat out and prefetches the film's memory for it. False if the layout has no room for
    // the splat, or if one of its parts falls on no pixel that sees the surface. The layout is then
    // unusable.
    bool lay_out(std::span<const SplatPart> parts,
                 const SplatEllipse& ellipse,
                 const Target& target,
                 const SeenSurfaces& seen,
                 const Film& film);

    void add_to(Film& film) const;

  private:
    static constexpr int kTile = SeenSurfaces::kTile;
    static_assert(kTile == PixelRun::kMost);
    // As many as an ellipse within kMostRadius can have, in whole tiles. The parts of a splat share
    // them.
    static constexpr size_t kMostRows = 2 * static_cast<size_t>(kMostRadius) + 2;
    static constexpr size_t kMostWeights = kMostRows * (kMostRows / kTile + 2);

    // Pixels; right and bottom are inside the box.
    struct Box {
        int left = 0, top = 0, right = 0, bottom = 0;
    };
    // One splat being laid out.
    struct Job {
        const SplatEllipse& ellipse;
        const Target& target;
        const SeenSurfaces& seen;
        const Film& film;
        // The plane that the last flat tile sees, and whether it is the splat's surface.
        uint32_t plane = SeenSurfaces::kNotFlat;
        bool plane_is_seen = false;
    };

    void begin(std::span<const SplatPart> parts, const Target& target);
    Box box_around(const SplatEllipse& ellipse, const Film& film) const;
    void lay_out_tile(int x, int top, int bottom, Job& job);
    void add_run(int left, int y, bool all_seen, const Job& job);
    bool scale_luminances();

    int first_group_ = 0;
    int groups_ = 0;
    int half_ = 0;
    size_t parts_ = 0;
    std::array<Vec2, kSpectrumSize> middles_;            // per part
    std::array<Spectrum, kSpectrumSize> luminances_;     // per part; a pixel gets this × weight
    std::array<RunWeights, kSpectrumSize> weight_sums_;  // per part, over all runs
    size_t run_count_ = 0;
    std::array<PixelRun, kMostWeights> runs_;
    std::array<RunWeights, kMostWeights> weights_;  // by run, then by part
};

}  // namespace dapple
