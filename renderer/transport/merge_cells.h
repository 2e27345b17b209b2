// Where all photons are kept: the parts of the room that the lens sees by way of shiny surfaces
// alone, such as in mirrors, in varnish and through smooth glass.
//
// Pilot walks from the camera, the same for every seed and pass, mark the cells of a hashed grid in
// which they would gather photons, and the cells around them. Elsewhere only a random share of the
// photons is kept. The weights of merging include the share (E92), so that no light is lost.
//
// In marked cells where few photons fall, photons are gathered from a wider disc. Else the few
// would be specks.
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

    // The radius of the wide disc, over the usual radius.
    static constexpr float kWide = 3;

    void mark_around(const Point& p);
    float share(const Point& p) const {
        if (bits_.empty()) return 1;
        const glm::ivec3 cell = cells_.at(p);
        return (bits_[word_of(cell)] & bit_of(cell)) != 0 ? 1.0F : kShareElsewhere;
    }

    // Marks the cell as one where many photons fall.
    void mark_dense(const Point& p) { wide_[word_of(cells_.at(p))] &= ~bit_of(cells_.at(p)); }
    // Whether photons at `p` are gathered from the wide disc.
    bool is_wide(const Point& p) const {
        if (wide_.empty()) return false;
        const glm::ivec3 cell = cells_.at(p);
        return (wide_[word_of(cell)] & bit_of(cell)) != 0;
    }
    glm::ivec3 cell_at(const Point& p) const { return cells_.at(p); }

    // Prefetches the memory that share() reads.
    void prefetch(const Point& p) const {
        if (!bits_.empty()) prefetch_to_read(&bits_[word_of(cells_.at(p))]);
    }

  private:
    static constexpr float kShareElsewhere = 1.0F / 16;
    static constexpr size_t kWords = size_t{1} << 14U;

    // One word holds a block of 4 × 4 × 4 cells, so that neighbours are together in memory. Two
    // blocks can share a word; then a few more photons are kept.
    static size_t word_of(const glm::ivec3& cell) { return hash_cell(cell >> 2) & (kWords - 1); }
    static uint64_t bit_of(const glm::ivec3& cell) {
        const glm::ivec3 within = cell & 3;
        return uint64_t{1} << static_cast<unsigned>(within.x + 4 * within.y + 16 * within.z);
    }

    Cells cells_;
    std::vector<uint64_t> bits_;  // marked cells
    std::vector<uint64_t> wide_;  // those where few photons fall
};

// Traces one pilot walk through a pixel. Adds the points at which it would gather photons to
// `gather_points`.
void trace_pilot_walk(const Stage& stage, int x, int y, std::vector<Point>& gather_points);

}  // namespace dapple
