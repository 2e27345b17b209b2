// A triangle's shading data in one cache line: what is stored is what hits get.
#include "geometry/facet.h"

#include <doctest/doctest.h>

using namespace dapple;

namespace {

const std::array<Point, 3> kCorners{Point(1, 2, 3), Point(4, 2, 3), Point(1, 6, 3)};
constexpr std::array<Normal, 3> kNoNormals{Normal(0), Normal(0), Normal(0)};

}  // namespace

TEST_CASE("a facet stores its corners and its material") {
    const Normal tilted = glm::normalize(Normal(0.1F, 0, 1));
    for (const auto& normals : {kNoNormals, {tilted, tilted, tilted}}) {
        const Facet facet = make_facet(kCorners, normals, 7);
        for (size_t i = 0; i < 3; ++i) CHECK(three(facet.corner(i)) == kCorners[i]);
        CHECK(facet.material() == 7);
    }
}

TEST_CASE("a facet without normals is flat and has its own normal in full precision") {
    const Facet facet = make_facet(kCorners, kNoNormals, 0);
    CHECK(facet.is_flat());
    const OnFacet on(facet, 0.25F, 0.5F);
    CHECK(three(on.position) == Point(1.75F, 4, 3));
    CHECK(three(on.geometric) == Normal(0, 0, 1));
    CHECK(three(on.shading) == Normal(0, 0, 1));
    CHECK(on.largest_coordinate == 6);
}

TEST_CASE("a facet with normals interpolates them on the side that it faces") {
    const Normal left = glm::normalize(Normal(-0.1F, 0, 1));
    const Normal right = glm::normalize(Normal(0.1F, 0, 1));
    for (const float side : {1.0F, -1.0F}) {
        const Facet facet = make_facet(kCorners, {side * left, side * right, side * left}, 0);
        CHECK_FALSE(facet.is_flat());
        const OnFacet on(facet, 0.5F, 0);
        CHECK(three(on.geometric) == Normal(0, 0, 1));
        // Packed normals are right to 1e-6.
        CHECK(glm::distance(three(on.shading), Normal(0, 0, 1)) < 2e-6F);
    }
}

TEST_CASE("a corner without a normal gets the facet's own") {
    const Normal tilted = glm::normalize(Normal(0.1F, 0, 1));
    const Facet facet = make_facet(kCorners, {tilted, Normal(0), tilted}, 0);
    CHECK(glm::distance(facet.normal(1).unpacked(), Normal(0, 0, 1)) < 2e-6F);
}

TEST_CASE("a needle is flat whatever its normals") {
    const Normal up(0, 0, 1);
    CHECK(
        make_facet({Point(0), Point(1e-9F, 0, 0), Point(0, 1e-6F, 0)}, {up, up, up}, 0).is_flat());
}
