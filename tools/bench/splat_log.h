// The splats of a pass's light walks, put down to be laid out again with nothing in between.
//
// Memory is limited: once it is full every second run of splats is dropped, and from then on one
// run in twice as many is kept. Runs, not single splats, so that neighbours stay neighbours.
#pragma once

#include <cstdint>
#include <vector>

#include "transport/light_walk.h"

namespace dapple {

struct Splat {
    Vec2 raster{0};
    Footprint footprint;
    SurfacePoint at;
    int fixture = 0;
    Spectrum luminance{0.0F};
};

// For one thread.
class SplatLog final : public LightSink {
  public:
    void add_splat(const Vec2& raster,
                   const Footprint& footprint,
                   const SurfacePoint& at,
                   int fixture,
                   const Spectrum& luminance) override;
    void add_reading(int, int, const Spectrum&) override {}

    uint64_t met() const { return met_; }
    const std::vector<Splat>& kept() const { return kept_; }

  private:
    static constexpr size_t kRun = 1024;
    static constexpr size_t kMost = 1024 * kRun;  // some 160 MB
    void drop_every_second_run();

    std::vector<Splat> kept_;
    uint64_t met_ = 0;
    uint64_t every_ = 1;
};

}  // namespace dapple
