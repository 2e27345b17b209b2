// Published designs: W. J. Smith, Modern Lens Design, 1992, pages 312, 305 and 360; the first two
// are US patents 2,673,491 and 2,601,805. The tables of the first and the third give no dispersion.
#include <stdexcept>

#include "lenses/prescription.h"

namespace dapple {

namespace {

constexpr bool kIsStop = true;

// Double Gauss, f/2, half field 22°, focal length 50.
const std::vector<LensRow> kNormal = {
    {29.475, 3.76, 1.67, 0, 25.2},
    {84.83, 0.12, 1, 0, 25.2},
    {19.275, 4.025, 1.67, 0, 23},
    {40.77, 3.275, 1.699, 0, 23},
    {12.75, 5.705, 1, 0, 18},
    {0, 4.5, 1, 0, 17.1, kIsStop},
    {-14.495, 1.18, 1.603, 0, 17},
    {40.77, 6.065, 1.658, 0, 20},
    {-20.385, 0.19, 1, 0, 20},
    {437.065, 3.22, 1.717, 0, 20},
    {-39.73, 0, 1, 0, 20},
};

// Double Gauss, f/1.35, half field 13°, focal length 100.
const std::vector<LensRow> kPortrait = {
    {85.5, 11.6, 1.744, 44.7, 76},
    {408.33, 1.5, 1, 0, 76},
    {40.35, 17, 1.62, 60.1, 66},
    {156.05, 3.5, 1.621, 36.2, 66},
    {25.05, 13.7, 1, 0, 44},
    {0, 8.3, 1, 0, 42.6, kIsStop},
    {-36.8, 3.5, 1.689, 31.2, 44},
    {55, 23, 1.744, 44.7, 52},
    {-51.5, 1, 1, 0, 52},
    {123.5, 17, 1.744, 44.7, 52},
    {-204.96, 0, 1, 0, 52},
};

// Wide angle, half field 38°, focal length 100. The publication lists the thickness before each
// surface; here it is the one behind.
const std::vector<LensRow> kWide = {
    {163.579, 5.529, 1.54, 0, 107.8},
    {53.169, 45.435, 1, 0, 81.8},
    {59.487, 23.301, 1.772, 0, 56.2},
    {-102.877, 8.042, 1.617, 0, 44.6},
    {322.991, 3.72, 1, 0, 41.6},
    {0, 10.353, 1, 0, 39.8, kIsStop},
    {-43.572, 11.057, 1.617, 0, 37.2},
    {-51.312, 0.523, 1, 0, 41.6},
    {-758.075, 14.073, 1.713, 0, 48.4},
    {-34.505, 6.031, 1.805, 0, 52},
    {-76.21, 18.094, 1, 0, 55.8},
    {-35.013, 5.529, 1.617, 0, 61},
    {-54.424, 0, 1, 0, 81.8},
};

}  // namespace

std::vector<LensRow> published_rows(const std::string& name) {
    if (name == "normal") return kNormal;
    if (name == "portrait") return kPortrait;
    if (name == "wide") return kWide;
    throw std::invalid_argument("no published lens is named " + name);
}

}  // namespace dapple
