// Spreads light over neighbouring pixels by several levels of exchange (clean/exchange.h).
#pragma once

#include <functional>
#include <vector>

#include "clean/exchange.h"

namespace dapple {

class LightSpread {
  public:
    // How alike two pixels are, 0 to 1.
    using Likeness = std::function<float(size_t, size_t)>;

    // `amounts`: A of E134, which must outlive this object. `deviation`: standard deviation of the
    // spread in each direction, px.
    LightSpread(const Plane& amounts, float deviation, const Likeness& likeness);
    LightSpread(const LightSpread&) = delete;  // its exchanges point into it
    LightSpread& operator=(const LightSpread&) = delete;

    // Adds the spread light to `sum` and empties `light`.
    void move(Plane& light, Plane& sum) const;

  private:
    const Plane& amounts_;
    std::vector<std::vector<Links>> links_;  // by level
    std::vector<Exchange> exchanges_;
};

// The strengths of the levels, from the finest: 1 is the whole kernel 1 2 1 of pixels that are
// 2^level apart. The variances in each direction, 2^(2 level)/2 each at full strength, have the sum
// `variance`, px², or less if that is too wide.
std::vector<float> spread_levels(float variance);

}  // namespace dapple
