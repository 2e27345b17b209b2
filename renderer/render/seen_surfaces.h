// What each pixel sees first, as splats ask for it: whether it is the surface that light fell on.
//
// By tiles: where all pixels of one see the same plane they are asked about together. Tiles beside
// each other share a plane, so that few are looked up, and what all pixels see, more than caches
// hold, seldom is.
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

        // Whether it is the surface at `at`: of the same material, and off its plane by less than
        // the width there of `reach_px` pixels.
        bool is(const SurfacePoint& at, float reach_px) const;
    };

    SeenSurfaces(const FirstHits& first_hits, const Lens& lens);

    const Seen& pixel(int x, int y) const { return pixels_[static_cast<size_t>(y * width_ + x)]; }
    // The plane that all pixels of the tile around a pixel see; kNotFlat if they do not see one.
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
