// A record of the splats of a pass's light walks, from which they are added again alone.
//
// Memory is limited. When it is full, every second sequence of splats is dropped, and from then on
// half as many sequences are kept. Whole sequences are kept so that neighbours stay neighbours.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "transport/light_sink.h"

namespace dapple {

struct Splat {
    std::array<SplatPart, kSpectrumSize> parts;
    size_t count = 0;  // of the parts
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
    static constexpr size_t kSequence = 1024;         // splats
    static constexpr size_t kMost = 256 * kSequence;  // some 170 MB
    void drop_every_second_sequence();

    std::vector<Splat> kept_;
    uint64_t met_ = 0;
    uint64_t every_ = 1;  // one of so many sequences is kept
};

}  // namespace dapple
