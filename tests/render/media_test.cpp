// Nested media: the rule decides which medium fills the space, in any order of entering and
// leaving.
#include "transport/media.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <vector>

#include "base/random.h"

using namespace dapple;

namespace {

// The solid with the highest priority; of equal priorities, the first in the scene (Schmidt and
// Budge 2002).
MaterialId by_rule(const Scene& scene, const std::vector<MaterialId>& inside) {
    const auto priority = [&](MaterialId id) {
        return scene.materials[static_cast<size_t>(id)].priority;
    };
    MaterialId best = kNoMaterial;
    for (const MaterialId id : inside) {
        if (best == kNoMaterial || priority(id) > priority(best) ||
            (priority(id) == priority(best) && id < best)) {
            best = id;
        }
    }
    return best;
}

}  // namespace

TEST_CASE("of the solids that contain a walk, the one with the highest priority fills the space") {
    Scene scene;
    for (const int priority : {2, 0, 1, 2, 3}) {
        Material m;
        m.priority = priority;
        scene.materials.push_back(m);
    }
    RandomStream random(1, 0, 0, Purpose::kTest);
    MediumStack media;
    std::vector<MaterialId> inside;
    CHECK(media.current() == kNoMaterial);
    for (int i = 0; i < 20000; ++i) {
        const auto id = static_cast<MaterialId>(random.next() * 5);
        const bool entering = random.next() < 0.5F;
        const MaterialId expected = media.current_after(scene, id, entering);
        media.cross(scene, id, entering);
        REQUIRE(media.current() == expected);
        if (entering && inside.size() < MediumStack::kDepth) {
            inside.push_back(id);
        } else if (!entering) {
            const auto at = std::find(inside.begin(), inside.end(), id);
            if (at != inside.end()) inside.erase(at);
        }
        REQUIRE(media.current() == by_rule(scene, inside));
        REQUIRE(media.empty() == inside.empty());
    }
}
