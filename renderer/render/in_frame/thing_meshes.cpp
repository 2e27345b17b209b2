#include "render/in_frame/thing_meshes.h"

#include <algorithm>

#include "geometry/glassware/make_glass.h"
#include "geometry/make_attachments.h"
#include "geometry/make_board.h"
#include "geometry/make_housing.h"

namespace dapple {

namespace {

constexpr float kLeastLamp = 1e-3F;  // m, diameter of a lamp that is a point

const Fixture* fixture_named(const Scene& scene, const std::string& name) {
    const auto found = std::find_if(scene.fixtures.begin(),
                                    scene.fixtures.end(),
                                    [&](const Fixture& f) { return f.name == name; });
    return name.empty() || found == scene.fixtures.end() ? nullptr : &*found;
}

Mesh ball_mesh(const Fixture& f) {
    GlassObject ball;
    ball.form = GlassForm::kBall;
    ball.diameter = ball.height = std::max(f.source_diameter, kLeastLamp);
    ball.position = f.position - Vec3(0, 0.5F * ball.diameter, 0);
    return make_glass(ball, Scene()).front();
}

Mesh face_mesh(const Fixture& f) {
    Board face;
    face.centre = f.position;
    face.facing = f.axis;
    face.round = f.form == FixtureForm::kSpot;
    face.size = face.round ? Vec2(std::max(f.source_diameter, kLeastLamp)) : f.panel_size;
    Mesh mesh = make_board(face);
    const Frame upright = looking_frame(face.facing);
    const Frame turned = fixture_frame(f);
    for (Point& p : mesh.positions) {
        p = f.position + turned.to_world(upright.to_local(p - f.position));
    }
    return mesh;
}

// A board that is clipped to `before`, as it hangs on `after`.
Board carried(Board board, const Fixture& before, const Fixture& after) {
    board.centre = after.position + glm::length(board.centre - before.position) * after.axis;
    board.facing = after.axis;
    return board;
}

}  // namespace

ThingMeshes::ThingMeshes(const Scene& scene, const Thing& thing) : scene_(scene) {
    const auto index = static_cast<size_t>(thing.index);
    switch (thing.kind) {
        case ThingKind::kLamp:
        case ThingKind::kHousing:
        case ThingKind::kStand:
            fixture_ = &scene.fixtures[index];
            break;
        case ThingKind::kBoard:
            board_ = &scene.boards[index];
            fixture_ = fixture_named(scene, board_->clipped_to);
            break;
        case ThingKind::kGlass:
            glass_ = make_glass(scene.glasses[index], scene);
            glass_.resize(1);  // what is in the glass is within it
            break;
        case ThingKind::kRoom:
        case ThingKind::kColumn:
        case ThingKind::kFigure:
            break;
    }
}

std::vector<Mesh> ThingMeshes::fixture_moved_by(const Vec3& by) const {
    Fixture f = *fixture_;
    f.position += by;
    if (f.aim) f.axis = glm::normalize(*f.aim - f.position);
    std::vector<Mesh> meshes = {f.form == FixtureForm::kBare ? ball_mesh(f) : face_mesh(f),
                                make_housing(f),
                                make_barn_doors(f, kNoMaterial),
                                make_snoot(f, kNoMaterial)};
    if (f.stand) {
        const std::optional<float> floor = floor_below(scene_.room, f.position);
        if (floor) meshes.push_back(make_stand(f, *floor, kNoMaterial));
    }
    for (const Board& board : scene_.boards) {
        if (f.name.empty() || board.clipped_to != f.name) continue;
        meshes.push_back(make_board(carried(board, *fixture_, f)));
    }
    return meshes;
}

std::vector<Mesh> ThingMeshes::moved_by(const Vec3& by) const {
    if (fixture_) return fixture_moved_by(by);
    if (board_) {
        Board board = *board_;
        board.centre += by;
        if (board.aim) board.facing = glm::normalize(*board.aim - board.centre);
        return {make_board(board)};
    }
    std::vector<Mesh> meshes = glass_;
    for (Mesh& mesh : meshes) {
        for (Point& p : mesh.positions) p += by;
    }
    return meshes;
}

}  // namespace dapple
