// Haze in the air of a set: small droplets that scatter light and absorb none.
#pragma once

#include <string>
#include <vector>

#include "math/vec.h"

namespace dapple {

// A cloud, as from a machine: an ellipsoid that fills a box. It is thickest in the middle and thins
// to nothing at the box's faces.
struct HazeBox {
    std::string name;
    Point centre{0};
    Vec3 half{1};          // half the box, along its own x, y and z, m
    float turn = 0;        // rad, about y
    float extinction = 0;  // in the middle, 1/m
};

struct Haze {
    static constexpr int kMostBoxes = 8;

    float extinction = 0;  // 1/m; of layered haze on the floor; 0: none
    float height = 0;      // m, up to where it has thinned to 1/e; 0: even
    float forward = 0.7F;  // mean cosine of the scattering
    std::vector<HazeBox> boxes;

    bool is_there() const { return extinction > 0 || !boxes.empty(); }
};

}  // namespace dapple
