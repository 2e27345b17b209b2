#include "transport/merge_cells.h"

#include "transport/pilot_walk.h"

namespace dapple {

MergeCells::MergeCells(float cell_m) : cells_{1 / cell_m}, bits_(kWords, 0), wide_(kWords, 0) {}

void MergeCells::mark_around(const Point& p) {
    const glm::ivec3 middle = cells_.at(p);
    for (int z = -1; z <= 1; ++z) {
        for (int y = -1; y <= 1; ++y) {
            for (int x = -1; x <= 1; ++x) {
                const glm::ivec3 cell = middle + glm::ivec3(x, y, z);
                bits_[word_of(cell)] |= bit_of(cell);
                wide_[word_of(cell)] |= bit_of(cell);
            }
        }
    }
}

void trace_pilot_walk(const Stage& stage, int x, int y, std::vector<Point>& gather_points) {
    const auto name = static_cast<uint64_t>(y) * static_cast<uint64_t>(stage.scene.camera.width) +
                      static_cast<uint64_t>(x);
    RandomStream random(stage.seed, stage.pass, name, Purpose::kPilot);
    Walk walk = start_pilot_walk(stage, x, y, name, random);
    Vertex vertex;
    while (walk.history.only_shiny() && find_next_vertex(stage, walk, vertex) &&
           !vertex.is_lamp()) {
        if (walk.edge > 1 && may_merge(stage, vertex)) gather_points.push_back(vertex.at.position);
        const Vec3 event_numbers = next_three(random);
        const ScatterResult result =
            scatter(stage, walk, vertex, Carrying::kRadiance, event_numbers, random);
        if (result == ScatterResult::kEnded) break;
    }
}

}  // namespace dapple
