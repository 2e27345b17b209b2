// Lamps' own faces far out of focus. All pixels of such a disc have the same light, of which each
// walk finds much or nothing; so each of them gets the mean of all.
#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include "clean/plane.h"
#include "film/seen_points.h"

namespace dapple {

class SoftLamps {
  public:
    explicit SoftLamps(const SeenPoints& seen);

    void even_out(Plane& light) const;

  private:
    std::map<int32_t, std::vector<size_t>> pixels_;  // by surface
};

}  // namespace dapple
