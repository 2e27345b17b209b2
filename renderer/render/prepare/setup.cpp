#include "render/prepare/setup.h"

#include <cmath>

#include "render/prepare/aim_emitters.h"
#include "render/prepare/walk_budget.h"

namespace dapple {

namespace {

// What [haze] fills; nothing in a set without a room.
std::optional<Bounds> room_bounds(const Scene& scene) {
    Bounds bounds;
    for (const Mesh& mesh : scene.room) {
        for (const Point& p : mesh.positions) bounds.add(p);
    }
    return bounds.empty() ? std::nullopt : std::optional(bounds);
}

Emitter unlit(const Fixture& fixture) {
    Fixture dark = fixture;
    dark.dimmer = 0;
    return Emitter(dark);
}

// A point in haze asks one of the lit cloths and one of the wide lamps.
HazeAids make_haze_aids(const World& world,
                        const std::vector<Emitter>& emitters,
                        const LitSheets& sheets) {
    HazeAids aids;
    float lit = 0;
    float wide = 0;
    const auto lights_cloth = [&](size_t f) {
        return emitters[f].lumens() > 0 && sheets.lit_by(f);
    };
    const auto is_asked = [&](size_t f) {
        return emitters[f].lumens() > 0 && is_wide(emitters[f]);
    };
    for (size_t f = 0; f < emitters.size(); ++f) {
        lit += lights_cloth(f) ? 1.0F : 0.0F;
        wide += is_asked(f) ? 1.0F : 0.0F;
    }
    for (size_t f = 0; f < emitters.size(); ++f) {
        aids.sheets.push_back(lights_cloth(f) ? 1.0F / lit : 0.0F);
        aids.lamps.push_back(is_asked(f) ? 1.0F / wide : 0.0F);
        aids.views.emplace_back(world, emitters[f], static_cast<int>(f));
    }
    return aids;
}

}  // namespace

Setup::Setup(const Scene& the_scene,
             const World& the_world,
             bool aims,
             const KeptLamps& kept,
             const std::vector<bool>& dark)
    : scene(the_scene),
      world(the_world),
      lens(the_scene.camera, true),
      materials(the_scene),
      groups(make_fixture_groups(the_scene)),
      emitters(the_scene.fixtures.begin(), the_scene.fixtures.end()),
      receptors(the_scene.meters.begin(), the_scene.meters.end()),
      start(find_start_media(the_scene, the_world)),
      probes(poses_of(the_scene, emitters)),
      sheets(the_scene,
             the_world,
             emitters,
             {.sheets = &kept.sheets, .lamp_is_same = same_lamps(probes, kept.probes)}) {
    if (aims) aim_emitters(scene, world, kept.probes, probes, emitters);
    // After the lamps are known: a later frame may light them.
    for (size_t f = 0; f < dark.size() && f < emitters.size(); ++f) {
        if (dark[f]) emitters[f] = unlit(scene.fixtures[f]);
    }
    if (scene.haze.is_there()) {
        haze.emplace(scene.haze, room_bounds(scene));
        haze_aids = make_haze_aids(world, emitters, sheets);
    }
}

Stage Setup::stage(const PassMaterials& pass_materials,
                   PassWalks walks,
                   uint64_t seed,
                   uint32_t pass) const {
    return {.scene = scene,
            .world = world,
            .lens = lens,
            .emitters = emitters,
            .materials = pass_materials,
            .walks = std::move(walks),
            .seed = seed,
            .pass = pass,
            .max_bounces = max_bounces,
            .start = start,
            .makes_frame = makes_frame,
            .receptors = receptors,
            .haze = haze ? &*haze : nullptr,
            .haze_aids = haze ? &haze_aids : nullptr,
            .partition = partition,
            .sheets = partition ? nullptr : &sheets};
}

PassWalks no_light_walks(const Setup& setup) {
    PassWalks walks;
    walks.light.assign(setup.emitters.size(), 0);
    walks.joined_to_meters = walks.light;
    return walks;
}

std::vector<int> light_walks_of_pass(const Setup& setup,
                                     double walks,
                                     double share_without_glass,
                                     bool is_quick) {
    if (!(walks > 0)) return std::vector<int>(setup.emitters.size(), 0);
    return make_walk_budget(
        setup.emitters, setup.world, static_cast<int64_t>(walks), share_without_glass, is_quick);
}

double white_of(const Camera& camera) {
    return 250.0 / kPi * static_cast<double>(camera.f_number) * camera.f_number /
           (static_cast<double>(camera.shutter) * camera.iso);
}

double sum_quantum(const Camera& camera, int bits) {
    return std::exp2(std::floor(std::log2(white_of(camera))) - bits);
}

}  // namespace dapple
