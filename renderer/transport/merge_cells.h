// Where photons are wanted: the parts of the room that the lens sees by way of mirrors, smooth
// glass and shiny surfaces.
//
// A pilot of camera walks, the same for every seed and pass, marks the cells of a hashed grid in
// which photons would be gathered, and those around them. In all other places only a share of the
// photons is kept; the weights of merging count with the share (E64), so that nothing is lost.
#pragma once

#include <cstdint>
#include <vector>

#include "base/memory_hints.h"
#include "math/cells.h"

namespace dapple {

struct Stage;

class MergeCells {
  public:
    // No cell is marked: all photons are kept everywhere.
    MergeCells() = default;
    explicit MergeCells(float cell_m);

    void mark_around(const Point& p);
    float share(const Point& p) const {
        if (bits_.empty()) return 1;
        const glm::ivec3 cell = cells_.at(p);
        return (bits_[word_of(cell)] & bit_of(cell)) != 0 ? 1.0F : kShareElsewhere;
    }

    // Prefetches what share() will read.
    void fetch(const Point& p) const {
        if (!bits_.empty()) prefetch_to_read(&bits_[word_of(cells_.at(p))]);
    }

  private:
    static constexpr float kShareElsewhere = 1.0F / 16;
    static constexpr size_t kWords = size_t{1} << 14U;

    // Four cells each way are one word, so that neighbours lie together in memory. Two such blocks
    // may share a word: then a few photons more are kept.
    static size_t word_of(const glm::ivec3& cell) { return hash_cell(cell >> 2) & (kWords - 1); }
    static uint64_t bit_of(const glm::ivec3& cell) {
        const glm::ivec3 within = cell & 3;
        return uint64_t{1} << static_cast<unsigned>(within.x + 4 * within.y + 16 * within.z);
    }

    Cells cells_;
    std::vector<uint64_t> bits_;
};

// The points at which a camera walk through this pixel would gather photons.
void trace_pilot_walk(const Stage& stage, int x, int y, std::vector<Point>& gathers);

}  // namespace dapple
