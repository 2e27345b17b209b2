// One-dimensional tabulated densities: piecewise constant, sampled by inversion.
#pragma once

#include <cstddef>
#include <vector>

namespace dapple {

// A density over [low, high] in equal bins, proportional to `weights` (all >= 0, one > 0).
class PiecewiseConstant {
  public:
    struct Sample {
        float x;
        float pdf;
    };

    PiecewiseConstant() = default;
    PiecewiseConstant(std::vector<double> weights, double low, double high);

    Sample sample(float u) const;
    float pdf(float x) const;
    double integral() const { return integral_; }  // of the unnormalised weights over [low, high]

  private:
    std::vector<float> cumulative_;  // bins + 1, from 0 to 1
    std::vector<float> density_;     // bins
    double low_ = 0;
    double high_ = 1;
    double integral_ = 0;
};

// Indices 0 … n-1 with probability proportional to `weights`.
class Discrete {
  public:
    Discrete() = default;
    explicit Discrete(const std::vector<double>& weights);

    int sample(float u) const;
    // Also sets `within` to u's position in the index's interval, in [0, 1): a new uniform number.
    int sample(float u, float& within) const;
    float probability(int i) const { return probability_[static_cast<size_t>(i)]; }
    int size() const { return static_cast<int>(probability_.size()); }

  private:
    std::vector<float> cumulative_;
    std::vector<float> probability_;
};

}  // namespace dapple
