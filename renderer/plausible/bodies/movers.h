// The bodies of a set that can be moved, and what each of them must be clear of.
//
// Left out on purpose, because it is done on purpose or does no harm:
// - lamps' faces (geometry/check_placement.h refuses those that are cut), capes, liquids, curtains
//   and leaves of a model, the feet of stands, and cloth that is clipped on;
// - cloths, flags and boards in walls: a black cloth larger than the floor is laid, not built;
// - panes in a model, which sit in their frames; barn doors and snoots, which cloth is pegged to;
// - glass in glass where the set says which of the two fills the space (priority);
// - a seated figure in a column that is a seat or a table; fixtures in each other.
#pragma once

#include <vector>

#include "plausible/bodies/crossings.h"
#include "plausible/staged_set.h"

namespace dapple {

struct Mover {
    Thing thing;
    BodyCage cage;
    Counts counts;
    bool also_down = false;  // it may be moved down too: it does not stand on the floor
};

// Glass, then boards, then fixtures, then figures.
std::vector<Mover> find_movers(const StagedSet& set);

// What still counts as touching: by how much the two may overlap, m. The values are our own.
float touching_of(const StagedSet& set, const Thing& mover, const Thing& other);

// The same for a figure that sinks into what it stands or sits on.
float sinking_of(const StagedSet& set, const Thing& mover);

}  // namespace dapple
