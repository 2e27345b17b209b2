// Light walks of a set from its lamps to their ends, with an account of where their light is
// absorbed.
//
// The walks start as in the renderer (E69) and use its find_next_vertex and scatter. The light that
// a vertex or a medium absorbs is computed from its law (vertex_law.h, Beer and Lambert), not from
// the walk's throughput behind it. So the accounts add up to the lamps' lumens only if the walks
// carry the right share.
//
// Each of a pass's wavelengths carries an eighth of a lamp's lumens. A balance that holds at every
// wavelength holds for every spectrum. And a walk that glass has reduced to one of its eight
// wavelengths, times eight, adds no noise.
#pragma once

#include <array>
#include <cstdint>
#include <initializer_list>
#include <vector>

#include "published/published.h"
#include "scene/scene.h"

namespace dapple::published {

enum class Account {
    kSent,      // sent by the lamps, summed over their walks
    kSurfaces,  // absorbed by walls, figures, boards and sheets
    kMedia,     // absorbed inside glass and liquids
    kLamps,     // arrived at the faces of lamps
    kBlack,     // arrived at surfaces without a material: the bodies of lamps
    kGround,    // lost at ground glass: light that would meet a second facet
    kNormals,   // gained or lost by interpolated normals
    kEscaped,   // left the scene
    kCut,       // in walks that were cut off: too long, or edge-on to a surface
    kCount
};

// The accounts of one pass of light walks.
struct PassAccounts {
    std::array<double, static_cast<size_t>(Account::kCount)> lumens{};
    uint32_t nonfinite = 0;  // walks that ended without an account
};

class LightAccounts {
  public:
    // `walks` per pass, divided among the lamps in proportion to their lumens.
    LightAccounts(const Scene& scene, int passes, int walks, uint64_t seed);

    double lumens() const { return lumens_; }  // stated lumens of all lamps
    // The sum of the accounts in lm; its error comes from the spread over passes.
    Estimate sum(std::initializer_list<Account> accounts) const;

    uint32_t nonfinite() const;

  private:
    double lumens_ = 0;
    std::vector<PassAccounts> passes_;
};

}  // namespace dapple::published
