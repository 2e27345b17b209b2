// Light walks of a set from its lamps to their ends, with an account of where their light stays.
//
// They begin as those of the renderer do (E48) and go by its own find_next_vertex and scatter. What
// a vertex or a medium keeps is reckoned from their laws (vertex_law.h, Beer and Lambert), never
// from what the walk carries behind them: only if walks carry the right share do the accounts add
// up to the lamps' lumens.
//
// Each of a pass's wavelengths stands for an eighth of a lamp's lumens. What is kept at every
// wavelength is kept in every mixture of them; and a walk that glass has left with one of eight
// wavelengths, times eight, brings no noise so.
#pragma once

#include <array>
#include <cstdint>
#include <initializer_list>
#include <vector>

#include "published/published.h"
#include "scene/scene.h"

namespace dapple::published {

enum class Account {
    kSent,      // by the lamps, as their walks bring it
    kSurfaces,  // absorbed by walls, figures, boards and sheets
    kMedia,     // absorbed inside glass and liquids
    kLamps,     // fell on the faces of lamps
    kBlack,     // fell on what has no material: the bodies of lamps
    kGround,    // not given back by ground glass: light that would meet a second facet
    kNormals,   // gained or lost where a normal is interpolated
    kEscaped,   // left the scene
    kCut,       // walks that were cut off: for their length, or edge-on to a surface
    kCount
};

// What one pass of light walks puts down.
struct PassAccounts {
    std::array<double, static_cast<size_t>(Account::kCount)> lumens{};
    uint32_t nonfinite = 0;  // walks that ended without an account
};

class LightAccounts {
  public:
    // `walks` per pass, shared by the lamps as their light is.
    LightAccounts(const Scene& scene, int passes, int walks, uint64_t seed);

    double lumens() const { return lumens_; }  // of all lamps, as they are told
    // Their sum in lm; its error is from the spread of the passes.
    Estimate sum(std::initializer_list<Account> accounts) const;

    uint32_t nonfinite() const;

  private:
    double lumens_ = 0;
    std::vector<PassAccounts> passes_;
};

}  // namespace dapple::published
