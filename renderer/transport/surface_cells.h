// Numbers the parts of the room's surfaces: a hashed grid of cubic cells, each split by the axis
// that the geometric normal is nearest to. Both sides of a surface are in the same part, so that
// walks from either side find the same number.
#pragma once

#include <cstdint>
#include <vector>

#include "math/cells.h"

namespace dapple {

class SurfaceCells {
  public:
    SurfaceCells() = default;
    // `cell_m`: the side of a cell, m. `most`: how many parts can be added.
    SurfaceCells(float cell_m, int most);

    // The number of the part; a new part gets the next number. -1 if there is no room for it.
    int add(const Point& p, const Normal& n);
    // The number of the part; -1 if it was not added.
    int find(const Point& p, const Normal& n) const;
    int size() const { return size_; }

  private:
    struct Slot {
        uint64_t key = 0;
        int number = -1;  // -1: the slot is empty
    };
    uint64_t key_of(const Point& p, const Normal& n) const;
    // The slot that holds the key, or the empty slot where it would be.
    size_t slot_of(uint64_t key) const;

    Cells cells_;
    std::vector<Slot> slots_;  // a power of two, at most half full
    int most_ = 0;
    int size_ = 0;
};

}  // namespace dapple
