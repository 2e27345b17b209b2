// How far a render lies from the truth, when the truth is known only as two independent renders.
//
//   MSE    = mean((T - A)(T - B))
//   relMSE = mean((T - A)(T - B) / (R² + (0.1 mean R)²)), R = (A + B)/2, the largest 0.1 % of the
//            pixels left out, of the mean too
//   energy = mean T / mean R
// T is the render in question, A and B the references, per pixel in cd/m². The noise of A and B is
// independent of each other and of T, so in MSE it averages out in place of adding to the error
// as it does in mean((T - R)²). One estimate may therefore even be below zero.
//
// Where there is nothing to be relative to, no pixels or no light in the references, the figure is
// not a number: tables have a dash there, JSON has null.
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

// What the references say of themselves.
struct ReferenceQuality {
    double mean = 0;                 // cd/m²
    double mean_square = 0;          // (cd/m²)², of the truth: mean(A B)
    double mse_of_one = 0;           // (cd/m²)², noise of either: mean((A - B)²)/2
    double relative_mse_of_one = 0;  // over the square of the mean
    double mean_difference = 0;      // of mean A and mean B, over their mean
};

ReferenceQuality judge_references(const References& references);

// `values` must not be empty.
double median(std::vector<double> values);

}  // namespace dapple
