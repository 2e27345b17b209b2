// The surface that each pixel sees first. A splat is drawn only on pixels that see the surface
// where its light fell.
//
// The frame is divided into tiles. If all pixels of a tile see the same plane, the tile is tested
// once instead of pixel by pixel. Neighbouring tiles share a plane where they can, so there are few
// planes. The per-pixel table does not fit in the cache and is rarely read.
#pragma once

#include <cstdint>
#include <vector>

#include "film/first_hits.h"
#include "geometry/world.h"
#include "transport/lens.h"

namespace dapple {

class SeenSurfaces {
  public:
    static constexpr int kTile = 8;  // px

    struct alignas(32) Seen {
        Point position{0};
        float footprint_m = 0;
        Normal normal{0};
        int32_t surface = -1;

        // Whether the pixel sees the surface at `at`: the material is the same, and the distance
        // from the plane of `at` is less than the width of `reach_px` pixels.
        bool is_surface_at(const SurfacePoint& at, float reach_px) const;
    };

    SeenSurfaces(const FirstHits& first_hits, const Lens& lens);

    const Seen& pixel(int x, int y) const { return pixels_[static_cast<size_t>(y * width_ + x)]; }
    // The plane that all pixels of a pixel's tile see; kNotFlat if they do not all see one plane.
    static constexpr uint32_t kNotFlat = ~0U;
    uint32_t plane_of_tile(int x, int y) const {
        return plane_of_[static_cast<size_t>(y / kTile * tiles_across_ + x / kTile)];
    }
    const Seen& plane(uint32_t number) const { return planes_[number]; }

  private:
    bool is_flat(int first_x, int first_y) const;
    void find_planes();

    int width_;
    int height_;
    int tiles_across_;
    std::vector<Seen> pixels_;
    std::vector<uint32_t> plane_of_;  // by tile
    std::vector<Seen> planes_;
};

}  // namespace dapple
