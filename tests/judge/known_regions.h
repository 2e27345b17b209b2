// Regions of known light, with noise of known strength.
#pragma once

#include <cmath>
#include <functional>

#include "base/random.h"
#include "base/units.h"
#include "judge/region_image.h"

namespace dapple::test {

using LuminanceAt = std::function<double(int x, int y)>;

inline RegionImage region_of(int width, int height, const LuminanceAt& luminance) {
    RegionImage region;
    region.width = width;
    region.height = height;
    region.pixel_m = 0.004;
    region.floor = 1e-3;
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) region.luminance.push_back(luminance(x, y));
    }
    region.noise.assign(region.luminance.size(), 0.0);
    region.inside.assign(region.luminance.size(), 1);
    return region;
}

inline double normal_number(RandomStream& random) {
    const double u = 1.0 - static_cast<double>(random.next());
    return std::sqrt(-2 * std::log(u)) * std::cos(2 * kPi * random.next());
}

// Gaussian noise of standard deviation `relative` times the pixel's luminance, and another sample
// of the same noise.
inline void add_noise(RegionImage& region, double relative, uint32_t seed = 0) {
    RandomStream random(7, 0, seed, Purpose::kTest);
    for (size_t i = 0; i < region.luminance.size(); ++i) {
        const double sigma = relative * region.luminance[i];
        region.luminance[i] += sigma * normal_number(random);
        region.noise[i] = sigma * normal_number(random);
    }
}

// Few bright hits: in each half of the walks a pixel is hit with probability p and then gets
// level/p.
inline void add_sparse_hits(RegionImage& region, double p) {
    RandomStream random(11, 0, 0, Purpose::kTest);
    for (size_t i = 0; i < region.luminance.size(); ++i) {
        const double hit = region.luminance[i] / p;
        const double first = random.next() < static_cast<float>(p) ? hit : 0;
        const double second = random.next() < static_cast<float>(p) ? hit : 0;
        region.luminance[i] = 0.5 * (first + second);
        region.noise[i] = 0.5 * (first - second);
    }
}

// Bright stripes `width` px wide every `period` px, `stops` over the rest.
inline LuminanceAt stripes(int width, int period, double stops) {
    return [=](int x, int) { return x % period < width ? std::exp2(stops) : 1.0; };
}

// Bell-shaped beam: half the light at `half` px from the centre.
inline LuminanceAt beam(double cx, double cy, double half) {
    return [=](int x, int y) {
        const double r = std::hypot(x - cx, y - cy) / half;
        return 100 * std::exp2(-r * r);
    };
}

}  // namespace dapple::test
