#include "scene/photometry/unfold_planes.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr double kSame = 1e-6;  // degrees

double once_around(double degrees) {
    const double rest = std::fmod(degrees, 360.0);
    const double positive = rest < 0 ? rest + 360 : rest;
    return positive > 360 - kSame ? 0 : positive;
}

std::vector<double> copies_of(double degrees, PlaneSymmetry symmetry) {
    switch (symmetry) {
        case PlaneSymmetry::kAxis:
            return {0};
        case PlaneSymmetry::kC0:
            return {degrees, -degrees};
        case PlaneSymmetry::kC90:
            return {degrees, 180 - degrees};
        case PlaneSymmetry::kQuarter:
            return {degrees, -degrees, 180 - degrees, 180 + degrees};
        case PlaneSymmetry::kNone:
            break;
    }
    return {degrees};
}

}  // namespace

std::vector<CandelaPlane> unfold_planes(const std::vector<CandelaPlane>& given,
                                        PlaneSymmetry symmetry) {
    std::vector<CandelaPlane> planes;
    for (const CandelaPlane& plane : given) {
        for (const double degrees : copies_of(plane.degrees, symmetry)) {
            planes.push_back({once_around(degrees), plane.row});
        }
    }
    std::stable_sort(
        planes.begin(), planes.end(), [](const CandelaPlane& a, const CandelaPlane& b) {
            return a.degrees < b.degrees;
        });
    const auto end =
        std::unique(planes.begin(), planes.end(), [](const CandelaPlane& a, const CandelaPlane& b) {
            return b.degrees - a.degrees < kSame;
        });
    planes.erase(end, planes.end());
    if (planes.empty() || planes.front().degrees > kSame) return {};
    planes.push_back({360, planes.front().row});
    return planes;
}

}  // namespace dapple
