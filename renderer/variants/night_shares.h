// A night shared out among processes that know nothing of each other.
//
// The passes of all films stand in one row, film after film. Share i of n is the i-th of n equal
// pieces of that row. So shares differ by one pass at most, each meets few sets, and what a share
// makes depends on i and n alone.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace dapple {

struct Share {
    int number = 1;  // from 1
    int of = 1;
};

// A part of a film.
struct ShareUnit {
    size_t variant = 0;
    int64_t first_pass = 0;  // from 0
    int64_t passes = 0;
};

// `films`: the variants that are rendered, each to `passes` passes.
std::vector<ShareUnit> units_of_share(const std::vector<size_t>& films,
                                      int64_t passes,
                                      const Share& share);

}  // namespace dapple
