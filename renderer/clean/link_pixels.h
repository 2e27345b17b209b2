#pragma once

#include <vector>

#include "clean/plane.h"
#include "film/seen_points.h"

namespace dapple {

struct Tuning {
    float kappa = 0.5F, power = 2, free = 1.0F;
    int levels = 5;
    float box[8] = {2, 2, 3, 5, 8, 12, 16, 16};
    bool wide = false;
    float extra = 9, cap = 0.1F, high = 2, white = 1e9F;
};
extern Tuning tuning;

// The weights of pairs of pixels at one offset: `weights[i]` is that of pixel i and of the pixel
// (dx, dy) from it; 0 where that one is outside the frame.
struct Links {
    int dx = 0, dy = 0;
    float kernel = 1;
    Plane weights;
};

// The light and its noise, both divided by reflectance.
struct GuideImages {
    Plane light, noise;
};

std::vector<Links> make_feature_links(const SeenPoints& seen, const std::vector<char>& alone, int step);
void test_links(const GuideImages& guide, int level, std::vector<Links>& links);

}  // namespace dapple
