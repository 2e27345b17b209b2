// The light groups of all fixtures, and where each fixture's groups begin.
#pragma once

#include <vector>

#include "film/film.h"
#include "scene/scene.h"

namespace dapple {

struct FixtureGroups {
    std::vector<LightGroup> groups;
    std::vector<int> first;  // index of each fixture's first group, and one more at the end

    int first_of(int fixture) const { return first[static_cast<size_t>(fixture)]; }
    int count_of(int fixture) const { return first_of(fixture + 1) - first_of(fixture); }
};

FixtureGroups make_fixture_groups(const Scene& scene);

}  // namespace dapple
