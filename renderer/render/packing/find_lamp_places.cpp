#include "render/packing/find_lamp_places.h"

#include <algorithm>

#include "geometry/surfaces_past_fixtures.h"

namespace dapple {

namespace {

bool is_glass_or_cloth(const Scene& scene, const std::string& name) {
    return std::any_of(scene.materials.begin(), scene.materials.end(), [&](const Material& m) {
        return m.name == name && (m.kind == MaterialKind::kGlass || m.kind == MaterialKind::kSheet);
    });
}

}  // namespace

std::vector<LampPlace> find_lamp_places(const Scene& scene, const World& world) {
    std::vector<LampPlace> places;
    for (const Fixture& f : scene.fixtures) {
        places.push_back({f.position, {}});
        if (f.form == FixtureForm::kBare || f.is_window) continue;
        for (const MetSurface& met :
             surfaces_past_fixtures(scene, world, {f.position, f.axis, 0, kInfinity})) {
            if (is_glass_or_cloth(scene, met.name)) places.back().passes.push_back(met.name);
        }
    }
    return places;
}

}  // namespace dapple
