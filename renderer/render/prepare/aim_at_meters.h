// Aims light walks at the glass through which a lamp's light reaches the meters.
//
// Few of a beam's rays fall on a receptor of some millimetres. Pilot walks find the cells of the
// glass windows (glass_windows.h) from which they start. The first pilots have larger receptors,
// and each pilot is aimed by the result of the one before. A cell gets the share
//   P(cell) ∝ √(A_cell ΣΣ (c/R)² N pω cosθ/t²)                                              (E72)
// of the aimed walks, the sums over pilot walks through the cell and over meters: c what the walk
// adds to a reading, R the reading, pω cosθ/t² the density of walks on the window, per m². That is
// the choice with the least variance. A fixture gets walks by the square root of its sum over the
// cells: by the sum itself, a lamp whose pilots missed a place would get too few. For the same
// reason a part of the aim is spread evenly near the cells that were found, and half of what
// earlier pilots found is kept. All this changes only the noise, because the density of a light
// walk's start stays exact (E70). All pilots are fixed, so every process computes the same numbers.
#pragma once

#include <vector>

#include "render/prepare/setup.h"
#include "render/work_watch.h"

namespace dapple {

// Changes the aims of the setup's emitters, and the number of light walks in `walks`. Walks that
// are joined to meters stay enough to find the other light. Throws StoppedWork if `watch` stops the
// work.
void aim_at_meters(Setup& setup, PassWalks& walks, WorkWatch& watch);

}  // namespace dapple
