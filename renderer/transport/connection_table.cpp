#include "transport/connection_table.h"

#include <algorithm>

namespace dapple {

namespace {

// A number of vertices t with Σ min(t, expected) = kept: each cell stores at most t.
double most_per_cell(std::vector<double> expected, double kept) {
    std::sort(expected.begin(), expected.end());
    double left = kept;
    for (size_t i = 0; i < expected.size(); ++i) {
        const double each = left / static_cast<double>(expected.size() - i);
        if (expected[i] >= each) return each;
        left -= expected[i];
    }
    return expected.empty() ? 0 : expected.back();
}

}  // namespace

ConnectionTable::ConnectionTable(SurfaceCells receivers,
                                 SurfaceCells lights,
                                 std::span<const double> expected,
                                 std::span<const double> flux,
                                 double kept)
    : receivers_(std::move(receivers)),
      lights_(std::move(lights)),
      expected_(expected.begin(), expected.end()),
      cumulative_(static_cast<size_t>(receivers_.size()) * expected.size()) {
    const double most = most_per_cell({expected.begin(), expected.end()}, kept);
    for (size_t i = 0; i < expected.size(); ++i) {
        const double share = std::min(1.0, most / expected[i]);
        const double mean_flux = flux[i] / expected[i];
        kept_.push_back(mean_flux > 0 ? static_cast<float>(share / mean_flux) : 1.0F);
    }
}

void ConnectionTable::set(int receiver_cell, std::span<const double> light) {
    double all = 0;
    for (const double l : light) all += l;
    float* const row =
        &cumulative_[static_cast<size_t>(receiver_cell) * expected_.size()];
    double sum = 0;
    for (size_t i = 0; i < light.size(); ++i) {
        sum += light[i];
        row[i] = static_cast<float>(sum / all);
    }
    row[light.size() - 1] = 1;
}

int ConnectionTable::sample(int receiver_cell, float u, float& within) const {
    const float* const begin = row(receiver_cell);
    const float* const end = begin + expected_.size();
    const float* const found = std::min(std::upper_bound(begin, end, u), end - 1);
    const float before = found == begin ? 0.0F : found[-1];
    const float probability = *found - before;
    within = probability > 0 ? std::clamp((u - before) / probability, 0.0F, 0x1.fffffep-1F) : 0.0F;
    return static_cast<int>(found - begin);
}

}  // namespace dapple
