// The splats of a pass's light walks, put down to be laid out again with nothing in between.
//
// Memory is limited: once it is full every second run of splats is dropped, and from then on one
// run in twice as many is kept. Runs, not single splats, so that neighbours stay neighbours.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "transport/light_sink.h"

namespace dapple {

struct Splat {
    std::array<SplatPart, kSpectrumSize> parts;
    size_t count = 0;  // of them
    Footprint footprint;
    SurfacePoint at;
    int fixture = 0;
};

// For one thread.
class SplatLog final : public LightSink {
  public:
    void add_splat(std::span<const SplatPart> parts,
                   const Footprint& footprint,
                   const SurfacePoint& at,
                   int fixture) override;
    void add_reading(int, int, const Spectrum&) override {}

    uint64_t met() const { return met_; }
    const std::vector<Splat>& kept() const { return kept_; }

  private:
    static constexpr size_t kRun = 1024;
    static constexpr size_t kMost = 256 * kRun;  // some 170 MB
    void drop_every_second_run();

    std::vector<Splat> kept_;
    uint64_t met_ = 0;
    uint64_t every_ = 1;
};

}  // namespace dapple
