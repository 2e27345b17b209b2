#include "geometry/gather_bodies.h"

#include <optional>

#include "geometry/glassware/make_glass.h"
#include "geometry/lay_figure/make_stand_in.h"
#include "geometry/make_attachments.h"
#include "geometry/make_board.h"
#include "geometry/make_bodies.h"
#include "geometry/make_column.h"
#include "geometry/make_housing.h"

namespace dapple {

namespace {

class Gatherer {
  public:
    Gatherer(const Scene& scene, KernelScenes& kernels, Bodies before)
        : scene_(scene), maker_(scene, kernels, std::move(before)) {}

    void add_room();
    void add_glassware();
    void add_boards();
    void add_columns();
    void add_lay_figures();
    void add_fixtures();
    Bodies take();

  private:
    void add_breaking(const MeshBounds& bounds) {
        if (!bounds.breaking.empty()) broken_beams_.push_back(bounds.breaking);
    }

    const Scene& scene_;
    BodyMaker maker_;
    std::vector<Bounds> broken_beams_, diffusers_;
};

void Gatherer::add_room() {
    for (const Mesh& mesh : scene_.room) add_breaking(maker_.add_mesh(mesh));
}

void Gatherer::add_glassware() {
    for (size_t i = 0; i < scene_.glasses.size(); ++i) {
        maker_.begin_thing(ThingKind::kGlass, i);
        Bounds bounds;
        for (const Mesh& mesh : make_glass(scene_.glasses[i], scene_)) {
            bounds.add(maker_.add_mesh(mesh).all);
        }
        broken_beams_.push_back(bounds);
    }
}

void Gatherer::add_boards() {
    for (size_t i = 0; i < scene_.boards.size(); ++i) {
        maker_.begin_thing(ThingKind::kBoard, i);
        const MeshBounds bounds = maker_.add_mesh(make_board(scene_.boards[i]));
        if (scene_.boards[i].kind == BoardKind::kDiffuser) {
            diffusers_.push_back(bounds.all);
        } else {
            add_breaking(bounds);
        }
    }
}

void Gatherer::add_columns() {
    for (size_t i = 0; i < scene_.columns.size(); ++i) {
        maker_.begin_thing(ThingKind::kColumn, i);
        maker_.add_mesh(make_column(scene_.columns[i]));
    }
}

void Gatherer::add_lay_figures() {
    for (size_t i = 0; i < scene_.stand_ins.size(); ++i) {
        maker_.begin_thing(ThingKind::kFigure, i);
        for (const Mesh& mesh : make_stand_in(scene_.stand_ins[i])) maker_.add_mesh(mesh);
    }
}

void Gatherer::add_fixtures() {
    for (size_t i = 0; i < scene_.fixtures.size(); ++i) {
        const Fixture& fixture = scene_.fixtures[i];
        maker_.begin_thing(ThingKind::kHousing, i);
        maker_.add_mesh(make_housing(fixture, scene_.housing_material));
        maker_.add_mesh(make_barn_doors(fixture, scene_.housing_material));
        maker_.add_mesh(make_snoot(fixture, scene_.housing_material));
        if (fixture.stand) {
            const std::optional<float> floor = floor_below(scene_.room, fixture.position);
            maker_.begin_thing(ThingKind::kStand, i);
            if (floor) maker_.add_mesh(make_stand(fixture, *floor, scene_.housing_material));
        }
        maker_.add_lamp(static_cast<int>(i));
    }
}

Bodies Gatherer::take() {
    Bodies bodies = maker_.take();
    for (const Fixture& fixture : scene_.fixtures) bodies.bounds.add(fixture.position);
    bodies.broken_beam_bounds = std::move(broken_beams_);
    bodies.diffuser_bounds = std::move(diffusers_);
    return bodies;
}

}  // namespace

Bodies gather_bodies(const Scene& scene, KernelScenes& kernels, Bodies before) {
    Gatherer gatherer(scene, kernels, std::move(before));
    gatherer.add_room();
    gatherer.add_glassware();
    gatherer.add_boards();
    gatherer.add_columns();
    gatherer.add_lay_figures();
    gatherer.add_fixtures();
    return gatherer.take();
}

}  // namespace dapple
