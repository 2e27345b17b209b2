// Reads lights that targets name. Private to this folder.
#pragma once

#include <vector>

#include "rebalance/layer_changes.h"
#include "rebalance/target.h"

namespace dapple {

// The light of each fixture at a spot, lx or cd/m², after changes of the layers; 0 for fixtures
// that the spot leaves out.
class SpotLight {
  public:
    SpotLight(const FilmRecord& film, const LightSpot& spot);

    std::vector<double> by_fixture(const std::vector<LayerChange>& changes) const;
    // Standard error of the sum over its fixtures, in stops; nothing if it is not known.
    std::optional<double> stderr_stops(const std::vector<LayerChange>& changes) const;

  private:
    std::vector<double> by_layer(const std::vector<LayerChange>& changes) const;

    const FilmRecord& film_;
    LightSpot spot_;
    std::vector<Xyz> xyz_;  // by layer, mean over the region or at the meter
    const GroupMeans& means_;
};

}  // namespace dapple
