// Uniformity of a task area, and its mean, minimum and maximum: a grid computed by hand.
//
// EN 12464-1 (definition from memory): U0 = E_min/E_mean on the grid. E_min/E_max, "diversity", is
// another number.
#include "judge/uniformity.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "judge/luminance_statistics.h"
#include "published/published.h"

namespace uniformity_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Uniformity");

const std::string kGrid = "EN 12464-1, U0 = min/mean, grid worked by hand";

constexpr int kCell = 8;  // px, the smallest cell of the measure
const double kLux[3][3] = {{300, 400, 500}, {350, 450, 550}, {400, 500, 600}};

RegionImage grid() {
    RegionImage region;
    region.width = region.height = 3 * kCell;
    for (int y = 0; y < region.height; ++y) {
        for (int x = 0; x < region.width; ++x) {
            region.luminance.push_back(kLux[y / kCell][x / kCell]);
        }
    }
    region.noise.assign(region.luminance.size(), 0.0);
    region.inside.assign(region.luminance.size(), 1);
    return region;
}

}  // namespace

TEST_CASE("a grid of nine readings has the uniformity computed by hand") {
    const RegionImage region = grid();
    const auto uniformity = measure_uniformity(region);
    REQUIRE(uniformity);
    kSubject.exact("least over mean of 300 … 600 lx", kGrid, "", "0.666667", *uniformity);
    const LuminanceStatistics all = make_luminance_statistics(region.luminance);
    kSubject.exact("mean of 300 … 600 lx", kGrid, "lx", "450.000", all.mean);
    kSubject.exact("least over most of 300 … 600 lx", kGrid, "", "0.500000", all.min / all.max);
}

}  // namespace uniformity_test
