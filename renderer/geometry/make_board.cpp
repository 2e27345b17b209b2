#include "geometry/make_board.h"

#include <cmath>

namespace dapple {

namespace {

constexpr uint32_t kDiscSegments = 96;

}  // namespace

Mesh make_board(const Board& board) {
    const Frame frame = looking_frame(board.facing);
    const Vec3 right = -frame.s;  // of someone who looks at the front
    const Vec2 size = board.round ? Vec2(board.size.x) : board.size;

    Mesh mesh;
    mesh.name = board.name;
    const auto add = [&](float u, float v) {
        mesh.positions.push_back(board.centre + (u - 0.5F) * size.x * right +
                                 (v - 0.5F) * size.y * frame.t);
        mesh.normals.push_back(frame.n);
        mesh.uvs.emplace_back(u, v);
    };
    if (board.round) {
        add(0.5F, 0.5F);
        for (uint32_t i = 0; i < kDiscSegments; ++i) {
            const double phi = 2 * kPi * i / kDiscSegments;
            add(static_cast<float>(0.5 + 0.5 * std::cos(phi)),
                static_cast<float>(0.5 + 0.5 * std::sin(phi)));
            mesh.triangles.emplace_back(0, 1 + i, 1 + (i + 1) % kDiscSegments);
        }
    } else {
        add(0, 0);
        add(1, 0);
        add(1, 1);
        add(0, 1);
        mesh.triangles = {glm::uvec3(0, 1, 2), glm::uvec3(0, 2, 3)};
    }
    mesh.materials.assign(mesh.triangles.size(), board.material);
    return mesh;
}

}  // namespace dapple
