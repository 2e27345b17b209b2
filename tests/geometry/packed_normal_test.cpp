// Normals packed in eight bytes are right to a millionth.
#include "geometry/packed_normal.h"

#include <doctest/doctest.h>

#include "base/random.h"
#include "math/warps.h"

using namespace dapple;

TEST_CASE("a packed normal is off by less than 1e-6, and zero stays zero") {
    CHECK(PackedNormal(Vec3(0)).unpacked() == Vec3(0));
    RandomStream random(1, 0, 0, Purpose::kTest);
    for (int i = 0; i < 10000; ++i) {
        const float u = random.next();
        Vec3 n = sample_cosine_hemisphere(u, random.next());
        if (i % 2 == 0) n = -n;
        // Half a step of 2^-20 in each of three coordinates: 0.83e-6 at most.
        CHECK(glm::length(PackedNormal(n).unpacked() - n) < 0.95e-6F);
    }
    for (int axis = 0; axis < 3; ++axis) {
        Vec3 n(0);
        n[axis] = -1;
        CHECK(PackedNormal(n).unpacked() == n);
    }
}
