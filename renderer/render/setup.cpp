#include "render/setup.h"

#include <cmath>

#include "render/aim_emitters.h"
#include "render/walk_budget.h"

namespace dapple {

Setup::Setup(const Scene& the_scene, const World& the_world, bool aims)
    : scene(the_scene),
      world(the_world),
      lens(the_scene.camera),
      materials(the_scene),
      groups(make_fixture_groups(the_scene)),
      emitters(the_scene.fixtures.begin(), the_scene.fixtures.end()),
      receptors(the_scene.meters.begin(), the_scene.meters.end()),
      start(find_start_media(the_scene, the_world)),
      sheets(the_scene, the_world, emitters),
      light_walks(emitters.size(), 0),
      joined_to_meters(emitters.size(), 0) {
    if (aims) aim_emitters(scene, world, emitters);
}

Stage Setup::stage(const PassMaterials& pass_materials, uint64_t seed, uint32_t pass) const {
    Stage stage{scene,
                world,
                lens,
                emitters,
                light_walks,
                pass_materials,
                seed,
                pass,
                max_bounces,
                start,
                makes_frame,
                receptors,
                meter_walks,
                joined_to_meters};
    stage.partition = partition;
    stage.sheets = partition ? nullptr : &sheets;
    return stage;
}

double sum_quantum(const Camera& camera, int bits) {
    const double white = 250.0 / kPi * static_cast<double>(camera.f_number) * camera.f_number /
                         (static_cast<double>(camera.shutter) * camera.iso);
    return std::exp2(std::floor(std::log2(white)) - bits);
}

std::vector<int> light_walks_of_pass(const Setup& setup, double walks, double share_without_glass) {
    if (!(walks > 0)) return std::vector<int>(setup.emitters.size(), 0);
    return make_walk_budget(
        setup.emitters, setup.world, static_cast<int64_t>(walks), share_without_glass);
}

}  // namespace dapple
