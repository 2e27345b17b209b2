// Divides space into equal cubic cells, and hashes a cell.
#pragma once

#include <cmath>
#include <cstdint>

#include "math/vec.h"

namespace dapple {

struct Cells {
    float per_cell = 0;  // 1 / side, 1/m

    glm::ivec3 at(const Point& p) const {
        return glm::ivec3(static_cast<int>(std::floor(p.x * per_cell)),
                          static_cast<int>(std::floor(p.y * per_cell)),
                          static_cast<int>(std::floor(p.z * per_cell)));
    }
};

// Primes of Teschner et al. 2003, "Optimized spatial hashing for collision detection".
inline uint32_t hash_cell(const glm::ivec3& cell) {
    return (static_cast<uint32_t>(cell.x) * 73856093U) ^
           (static_cast<uint32_t>(cell.y) * 19349663U) ^
           (static_cast<uint32_t>(cell.z) * 83492791U);
}

}  // namespace dapple
