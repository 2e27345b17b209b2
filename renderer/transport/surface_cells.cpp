#include "transport/surface_cells.h"

#include <bit>
#include <cmath>

#include "base/random.h"

namespace dapple {

SurfaceCells::SurfaceCells(float cell_m, int most)
    : cells_{1 / cell_m}, slots_(std::bit_ceil(2 * static_cast<size_t>(most) + 2)), most_(most) {}

uint64_t SurfaceCells::key_of(const Point& p, const Normal& n) const {
    // Walls and floors are often at round coordinates. They must not lie on the border of two
    // cells, where rounding would decide between them.
    constexpr float kOff = 0.41421F;
    const glm::ivec3 cell = cells_.at(p + Vec3(kOff / cells_.per_cell));
    const Vec3 a = glm::abs(n);
    const uint64_t axis = a.x > a.y ? (a.x > a.z ? 0U : 2U) : (a.y > a.z ? 1U : 2U);
    constexpr uint64_t kMask = (1U << 20U) - 1;
    const auto bits = [](int i) { return static_cast<uint64_t>(static_cast<int64_t>(i)) & kMask; };
    return (bits(cell.x) << 42U) | (bits(cell.y) << 22U) | (bits(cell.z) << 2U) | axis;
}

size_t SurfaceCells::slot_of(uint64_t key) const {
    const size_t mask = slots_.size() - 1;
    size_t i = mix_bits(key) & mask;
    while (slots_[i].number >= 0 && slots_[i].key != key) i = (i + 1) & mask;
    return i;
}

int SurfaceCells::add(const Point& p, const Normal& n) {
    const uint64_t key = key_of(p, n);
    Slot& slot = slots_[slot_of(key)];
    if (slot.number < 0 && size_ < most_) slot = {key, size_++};
    return slot.number;
}

int SurfaceCells::find(const Point& p, const Normal& n) const {
    return slots_.empty() ? -1 : slots_[slot_of(key_of(p, n))].number;
}

}  // namespace dapple
