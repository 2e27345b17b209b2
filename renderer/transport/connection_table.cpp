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

ConnectionTable::ConnectionTable(SurfaceCells receivers, const LightCells& lights, double kept)
    : receivers_(std::move(receivers)),
      lights_(lights.cells),
      flux_(lights.flux.begin(), lights.flux.end()),
      fixture_flux_(lights.fixture_flux.begin(), lights.fixture_flux.end()),
      cumulative_(static_cast<size_t>(receivers_.size()) * flux_.size()) {
    const double most = most_per_cell(lights.expected, kept);
    for (size_t i = 0; i < flux_.size(); ++i) {
        const double share = std::min(1.0, most / lights.expected[i]);
        kept_.push_back(static_cast<float>(share * lights.expected[i] / lights.flux[i]));
    }
}

void ConnectionTable::set(int receiver_cell, std::span<const double> light) {
    double all = 0;
    for (const double l : light) all += l;
    float* const row = &cumulative_[static_cast<size_t>(receiver_cell) * flux_.size()];
    double sum = 0;
    for (size_t i = 0; i < light.size(); ++i) {
        sum += light[i];
        row[i] = static_cast<float>(sum / all);
    }
    row[light.size() - 1] = 1;
}

int ConnectionTable::sample(int receiver_cell, float u, float& within) const {
    const float* const begin = row(receiver_cell);
    const float* const end = begin + flux_.size();
    const float* const found = std::min(std::upper_bound(begin, end, u), end - 1);
    const float before = found == begin ? 0.0F : found[-1];
    const float probability = *found - before;
    within = probability > 0 ? std::clamp((u - before) / probability, 0.0F, 0x1.fffffep-1F) : 0.0F;
    return static_cast<int>(found - begin);
}

void ConnectionTable::scale_flux(double factor) {
    const auto f = static_cast<float>(factor);
    for (float& flux : fixture_flux_) flux *= f;
    for (float& kept : kept_) kept /= f;
}

}  // namespace dapple
