#include "plausible/beams/find_shaded_faces.h"

#include <cmath>

#include "math/sequences.h"
#include "plausible/beams/board_shade.h"
#include "plausible/in_words.h"
#include "scene/boards_and_figures/figure_places.h"
#include "scene/checks.h"

namespace dapple {

namespace {

constexpr double kMostTaken = 0.75;    // of the fixture's light on the face
constexpr float kAimedAtFace = 0.15F;  // m, from the aim to the middle of the head
constexpr float kDiscOfFace = 0.05F;   // of the height
constexpr uint32_t kPointsOfFace = 256;

// Points on a disc through the middle of the head, which faces the lamp.
std::vector<Point> points_of_face(const StandIn& figure, const Point& lamp) {
    const Point face = figure_face(figure);
    const Frame frame(glm::normalize(lamp - face));
    std::vector<Point> points;
    for (uint32_t i = 0; i < kPointsOfFace; ++i) {
        const auto u = sobol_owen_4d(i, 19);
        const float radius = kDiscOfFace * figure.height * std::sqrt(u[0]);
        const float angle = 2 * kPiF * u[1];
        points.push_back(face + radius * (std::cos(angle) * frame.s + std::sin(angle) * frame.t));
    }
    return points;
}

std::optional<int> figure_aimed_at(const Scene& scene, const Fixture& f) {
    for (size_t i = 0; i < scene.stand_ins.size(); ++i) {
        const float off = glm::length(*f.aim - figure_face(scene.stand_ins[i]));
        if (off < kAimedAtFace) return static_cast<int>(i);
    }
    return std::nullopt;
}

std::optional<Doubt> shading_doubt(
    const StagedSet& set, const Emitter& emitter, int fixture, int board, int figure) {
    const StandIn& person = set.scene.stand_ins[static_cast<size_t>(figure)];
    const std::vector<LightWay> ways = ways_past_board(set,
                                                       emitter,
                                                       fixture,
                                                       points_of_face(person, emitter.position()),
                                                       board,
                                                       {ThingKind::kFigure, figure});
    const double taken = share_stopped(set.scene.boards[static_cast<size_t>(board)], Vec3(0), ways);
    const Field<Triple>* position = written_position(set, {ThingKind::kBoard, board});
    if (taken <= kMostTaken || position == nullptr) return std::nullopt;
    const std::string face = "the face of \"" + person.name + "\"";
    const std::string how_much =
        taken > 0.995 ? "all light" : number_text(std::floor(100 * taken)) + " % of the light";
    return doubt_at(*position,
                    "takes " + how_much + " of \"" +
                        set.scene.fixtures[static_cast<size_t>(fixture)].name + "\" off " + face +
                        ", which it is aimed at; " +
                        freeing_move_text(set, board, ways, "the face"));
}

}  // namespace

Doubts find_shaded_faces(const StagedSet& set, const QuickLight& light) {
    Doubts doubts;
    for (size_t b = 0; b < set.scene.boards.size(); ++b) {
        const auto board = static_cast<int>(b);
        const Material& sheet =
            set.scene.materials[static_cast<size_t>(set.scene.boards[b].material)];
        if (!is_movable_stop(set.scene, {ThingKind::kBoard, board}) || is_see_through(sheet)) {
            continue;
        }
        for (size_t i = 0; i < set.scene.fixtures.size(); ++i) {
            const Fixture& f = set.scene.fixtures[i];
            const Emitter& emitter = light.emitters()[i];
            if (f.is_window || !f.aim || !(emitter.lumens() > 0)) continue;
            const auto figure = figure_aimed_at(set.scene, f);
            if (!figure) continue;
            auto doubt = shading_doubt(set, emitter, static_cast<int>(i), board, *figure);
            if (doubt) doubts.push_back(std::move(*doubt));
        }
    }
    return doubts;
}

}  // namespace dapple
