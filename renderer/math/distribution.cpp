#include "math/distribution.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "base/random.h"

namespace dapple {

namespace {

// The last index i with cumulative[i] <= u, among bins 0 … n-1; never an empty bin.
size_t find_bin(const std::vector<float>& cumulative, float u) {
    const auto after = std::upper_bound(cumulative.begin() + 1, cumulative.end() - 1, u);
    return static_cast<size_t>(after - cumulative.begin()) - 1;
}

}  // namespace

PiecewiseConstant::PiecewiseConstant(std::vector<double> weights, double low, double high)
    : low_(low), high_(high) {
    const size_t bins = weights.size();
    double total = 0;
    for (const double w : weights) total += w;
    assert(bins > 0 && total > 0 && high > low);
    const double width = (high - low) / static_cast<double>(bins);
    integral_ = total * width;
    cumulative_.resize(bins + 1, 0.0F);
    density_.resize(bins);
    double sum = 0;
    for (size_t i = 0; i < bins; ++i) {
        sum += weights[i];
        cumulative_[i + 1] = static_cast<float>(sum / total);
        density_[i] = static_cast<float>(weights[i] / integral_);
    }
    cumulative_.back() = 1.0F;
}

PiecewiseConstant::Sample PiecewiseConstant::sample(float u) const {
    const size_t bin = find_bin(cumulative_, u);
    const double width = (high_ - low_) / static_cast<double>(density_.size());
    const double c0 = cumulative_[bin];
    const double c1 = cumulative_[bin + 1];
    const double within = c1 > c0 ? std::clamp((u - c0) / (c1 - c0), 0.0, 1.0) : 0.5;
    // Rounding must not carry x over the bin's end, where the density may be 0.
    const auto end = static_cast<float>(low_ + width * static_cast<double>(bin + 1));
    const auto x = static_cast<float>(low_ + width * (static_cast<double>(bin) + within));
    return {std::min(x, std::nextafter(end, static_cast<float>(low_))), density_[bin]};
}

float PiecewiseConstant::pdf(float x) const {
    const double scaled = (x - low_) / (high_ - low_) * static_cast<double>(density_.size());
    if (!(scaled >= 0) || scaled > static_cast<double>(density_.size())) return 0;
    return density_[std::min(static_cast<size_t>(scaled), density_.size() - 1)];
}

Discrete::Discrete(const std::vector<double>& weights) {
    double total = 0;
    for (const double w : weights) total += w;
    assert(!weights.empty() && total > 0);
    cumulative_.push_back(0.0F);
    double sum = 0;
    for (const double w : weights) {
        sum += w;
        cumulative_.push_back(static_cast<float>(sum / total));
        probability_.push_back(static_cast<float>(w / total));
    }
    cumulative_.back() = 1.0F;
}

int Discrete::sample(float u) const {
    return static_cast<int>(find_bin(cumulative_, u));
}

int Discrete::sample(float u, float& within) const {
    const size_t bin = find_bin(cumulative_, u);
    const float width = cumulative_[bin + 1] - cumulative_[bin];
    within = width > 0 ? std::clamp((u - cumulative_[bin]) / width, 0.0F, kOneMinusEpsilon) : 0.5F;
    return static_cast<int>(bin);
}

}  // namespace dapple
