// What was found before the first pass to steer its sampling.
//
// It affects only the noise: every technique computes the same weights from it, whatever it says.
// So the pilots of an earlier frame can steer a frame of a scene that differs a little, with the
// same expectation. The desk does that while something is dragged.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "render/prepare/aim_probes.h"
#include "transport/asked_lamps.h"
#include "transport/connection_table.h"
#include "transport/merge_cells.h"

namespace dapple {

struct Pilots {
    KeptLamps lamps;
    std::vector<int> light_walks;                // per fixture, in every pass but the first
    std::optional<ConnectionTable> connections;  // nothing: no stored vertices
    std::optional<AskedLamps> asked;             // nothing: every vertex asks all lamps
    MergeCells merge_cells;
};

// Those of an earlier frame for one with these lamps and light walks. Lamps that have changed are
// asked by every vertex, because their light may now fall where it did not.
std::shared_ptr<const Pilots> carried_over(const Pilots& earlier,
                                           const KeptLamps& lamps,
                                           const std::vector<int>& light_walks);

}  // namespace dapple
