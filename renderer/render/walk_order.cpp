#include "render/walk_order.h"

#include "base/parallel.h"

namespace dapple {

namespace {

// The two uniform numbers for the direction are sorted into kFirst × kSecond cells. The first
// number runs through the cells of the windows around glass row by row (fixtures/aim.h), or from
// the middle of a beam to its edge.
constexpr uint32_t kFirst = 256;
constexpr uint32_t kSecond = 64;
constexpr int64_t kWalksPerBlock = 4096;

uint32_t cell_of(const std::array<float, 4>& start) {
    return static_cast<uint32_t>(start[2] * kFirst) * kSecond +
           static_cast<uint32_t>(start[3] * kSecond);
}

}  // namespace

std::vector<int> order_by_direction(const SobolOwen4d& starts, int walks) {
    std::vector<uint32_t> cells(static_cast<size_t>(walks));
    parallel_blocks(walks, kWalksPerBlock, [&](int64_t first, int64_t last) {
        for (int64_t i = first; i < last; ++i) {
            cells[static_cast<size_t>(i)] = cell_of(starts.point(static_cast<uint32_t>(i)));
        }
    });
    // A counting sort.
    stop_if_asked();
    std::vector<size_t> next(kFirst * kSecond + 1);
    for (const uint32_t cell : cells) ++next[cell + 1];
    for (size_t c = 1; c < next.size(); ++c) next[c] += next[c - 1];
    stop_if_asked();
    std::vector<int> order(cells.size());
    for (int i = 0; i < walks; ++i) {
        if (i % kWalksPerBlock == 0) stop_if_asked();
        order[next[cells[static_cast<size_t>(i)]]++] = i;
    }
    return order;
}

}  // namespace dapple
