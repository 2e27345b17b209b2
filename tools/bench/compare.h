// The error of a render against the truth, which is known only as two independent renders.
//
//   MSE    = mean((T - A)(T - B))
//   relMSE = mean((T - A)(T - B) / (R² + (0.1 mean R)²)), R = (A + B)/2; the largest 0.1 % of the
//            pixels are left out, also of mean R
//   energy = mean T / mean R
// T is the render, A and B are the references, per pixel in cd/m². The noises of A, B and T are
// independent, so that in MSE the noise of A and B averages out; in mean((T - R)²) it would add to
// the error. A single estimate may therefore be below zero.
//
// Without pixels, or without light in the references, a figure is NaN: tables have a dash there,
// JSON has null.
#pragma once

#include <span>
#include <vector>

namespace dapple {

struct References {
    std::vector<double> a, b;
    double relative_se = 0;  // of their common mean
};

struct Distance {
    double mse = 0;      // (cd/m²)²
    double rel_mse = 0;  // no unit
    double energy = 0;   // no unit
};

// `tested` has as many pixels as the references.
Distance compare(std::span<const double> tested, const References& references);

// How good the references are.
struct ReferenceQuality {
    double mean = 0;                 // cd/m²
    double mean_square = 0;          // (cd/m²)², of the truth: mean(A B)
    double mse_of_one = 0;           // (cd/m²)², noise of one reference: mean((A - B)²)/2
    double relative_mse_of_one = 0;  // divided by the square of the mean
    double mean_difference = 0;      // mean A less mean B, divided by their mean
};

ReferenceQuality judge_references(const References& references);

// `values` must not be empty.
double median(std::vector<double> values);

}  // namespace dapple
