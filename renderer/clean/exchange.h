// Exchanges light between linked pixels.
//
//   l_i = L_i + (1/A_i) Σ_j c_ij (L_j - L_i),   c_ij = w_ij min(A_i/W_i, A_j/W_j)        (E134)
// L: light over reflectance, A: reflectance times the area that shows the surface, w: weights of
// the links (E133), W_i = 1 + Σ_j w_ij. Since c is symmetric, Σ A L stays: no light is lost. Since
// Σ_j c_ij < A_i, each l_i is a weighted mean of L with weights above 0: even light stays even.
// The same c for every layer, so layers that add up still do.
#pragma once

#include <vector>

#include "clean/link_pixels.h"

namespace dapple {

class Exchange {
  public:
    explicit Exchange(const std::vector<Links>& links);

    // The cleaned `light`. `amounts`: A.
    Plane apply(const Plane& amounts, const Plane& light) const;
    // The weight of a pixel's own light in its cleaned light, 1 - (1/A_i) Σ_j c_ij.
    Plane own_weights(const Plane& amounts) const;

  private:
    template <class Value>
    Plane sum_links(const Plane& amounts, const Value& value) const;

    const std::vector<Links>& links_;
    Plane weight_sums_;  // W
};

}  // namespace dapple
