#include <doctest/doctest.h>

#include <vector>

#include "base/random.h"
#include "math/vec.h"
#include "math/warps.h"

namespace dapple {

namespace {

std::vector<Direction> directions() {
    std::vector<Direction> all = {Direction(1, 0, 0),
                                  Direction(0, -1, 0),
                                  Direction(0, 0, 1),
                                  Direction(0, 0, -1),
                                  Direction(0, 0, -0.0F) + Direction(0, 1, 0),
                                  glm::normalize(Direction(1e-4F, -1e-5F, -1)),
                                  glm::normalize(Direction(1e-4F, 1e-5F, 1))};
    RandomStream random(5, 0, 0, Purpose::kTest);
    for (int i = 0; i < 1000; ++i) {
        const float u = random.next();
        all.push_back(sample_sphere(u, random.next()));
    }
    return all;
}

void check_orthonormal(const Frame& f) {
    // Floats: a few units of 6e-8 in sums of three products.
    CHECK(glm::length(f.s) == doctest::Approx(1).epsilon(1e-6));
    CHECK(glm::length(f.t) == doctest::Approx(1).epsilon(1e-6));
    CHECK(std::abs(glm::dot(f.s, f.t)) < 1e-6F);
    CHECK(std::abs(glm::dot(f.s, f.n)) < 1e-6F);
    CHECK(std::abs(glm::dot(f.t, f.n)) < 1e-6F);
}

}  // namespace

TEST_CASE("a frame round any axis is orthonormal and right-handed, with z along the axis") {
    for (const Direction& axis : directions()) {
        const Frame f(axis);
        check_orthonormal(f);
        CHECK(glm::length(glm::cross(f.s, f.t) - axis) < 1e-6F);
        CHECK(glm::length(f.to_world(Vec3(0, 0, 1)) - axis) == 0);
    }
}

TEST_CASE("to_local and to_world undo each other") {
    for (const Direction& axis : directions()) {
        const Frame f(axis);
        const Vec3 v(0.3F, -2.0F, 0.7F);
        CHECK(glm::length(f.to_world(f.to_local(v)) - v) < 2e-6F);  // length 2.1
        CHECK(f.to_local(axis).z == doctest::Approx(1).epsilon(1e-6));
    }
}

TEST_CASE("a looking frame is orthonormal whichever way it looks, straight up and down too") {
    for (const Direction& forward : directions()) {
        const Frame f = looking_frame(forward);
        check_orthonormal(f);
        CHECK(glm::length(f.n - forward) == 0);
        CHECK(f.t.y >= -1e-6F);          // never upside down
        CHECK(std::abs(f.s.y) < 1e-6F);  // and level
    }
}

TEST_CASE("someone who looks along -z with y up has x on the right") {
    const Frame f = looking_frame(Direction(0, 0, -1));
    CHECK(glm::length(f.s - Direction(1, 0, 0)) < 1e-6F);
    CHECK(glm::length(f.t - Direction(0, 1, 0)) < 1e-6F);
}

TEST_CASE("bounds hold every point that was added, and nothing before the first") {
    Bounds b;
    CHECK(b.empty());
    CHECK(b.diagonal() == 0);
    b.add(Point(1, 2, 3));
    b.add(Point(-1, 4, 0));
    CHECK_FALSE(b.empty());
    CHECK(b.low == Point(-1, 2, 0));
    CHECK(b.high == Point(1, 4, 3));
    CHECK(b.centre() == Point(0, 3, 1.5F));
    CHECK(b.diagonal() == doctest::Approx(std::sqrt(4.0 + 4.0 + 9.0)).epsilon(1e-6));
    Bounds other;
    other.add(Point(5, 0, 0));
    b.add(other);
    CHECK(b.high.x == 5);
    CHECK(b.low.y == 0);
}

}  // namespace dapple
