#include "render/fixture_groups.h"

#include "fixtures/source_groups.h"

namespace dapple {

FixtureGroups make_fixture_groups(const Scene& scene) {
    FixtureGroups result;
    for (size_t i = 0; i < scene.fixtures.size(); ++i) {
        result.first.push_back(static_cast<int>(result.groups.size()));
        for (const SourceGroup& g : make_source_groups(scene.fixtures[i])) {
            result.groups.push_back(
                {scene.fixtures[i].name + g.suffix, g.spectrum, static_cast<int>(i)});
        }
    }
    result.first.push_back(static_cast<int>(result.groups.size()));
    return result;
}

}  // namespace dapple
