#include "plausible/beams/board_shade.h"

#include <algorithm>
#include <cmath>

#include "math/sequences.h"
#include "plausible/beams/sight_lines.h"
#include "plausible/bodies/way_out.h"
#include "plausible/in_words.h"
#include "plausible/room/room_walls.h"

namespace dapple {

namespace {

constexpr double kFreed = 0.05;      // of the light may still be stopped after a move
constexpr int kMostMove = 150;       // cm
constexpr float kInsideRoom = 0.1F;  // m

// Whether the straight way passes through the board.
bool passes_through(const Point& centre,
                    const Frame& frame,
                    const Board& board,
                    const LightWay& way) {
    const Vec3 along = way.to - way.from;
    const float slope = glm::dot(along, frame.n);
    if (std::abs(slope) < 1e-9F) return false;
    const float t = glm::dot(centre - way.from, frame.n) / slope;
    if (t <= 0 || t >= 1) return false;
    const Vec3 off = way.from + t * along - centre;
    if (board.round) return glm::length(off) <= 0.5F * board.size.x;
    return std::abs(glm::dot(off, frame.s)) <= 0.5F * board.size.x &&
           std::abs(glm::dot(off, frame.t)) <= 0.5F * board.size.y;
}

bool is_in_room(const StagedSet& set, const RoomWalls& walls, const Point& from, const Point& to) {
    const std::optional<Bounds> box = box_of_room(set);
    if (box && (glm::any(glm::lessThan(to, box->low + kInsideRoom)) ||
                glm::any(glm::greaterThan(to, box->high - kInsideRoom)))) {
        return false;
    }
    return walls.may_move(from, to);
}

}  // namespace

bool is_movable_stop(const Scene& scene, const Thing& thing) {
    if (thing.kind != ThingKind::kBoard) return false;
    const Board& board = scene.boards[static_cast<size_t>(thing.index)];
    return (board.kind == BoardKind::kFlag || board.kind == BoardKind::kBounce) &&
           board.clipped_to.empty();
}

std::vector<LightWay> ways_past_board(const StagedSet& set,
                                      const Emitter& emitter,
                                      int fixture,
                                      const std::vector<Point>& points,
                                      int board,
                                      const Thing& target) {
    const Counts counts = [&](const Thing& thing, const SurfacePoint& at) {
        const bool is_own = thing.index == fixture &&
                            (thing.kind == ThingKind::kHousing || thing.kind == ThingKind::kStand);
        return !is_own && thing != target && thing != Thing{ThingKind::kBoard, board} &&
               blocks_light(set.scene, at);
    };
    std::vector<LightWay> ways;
    for (size_t i = 0; i < points.size(); ++i) {
        const auto u = sobol_owen_4d(static_cast<uint32_t>(i), 17);
        LampLight light;
        if (!emitter.sample_towards(points[i], u[0], u[1], light)) continue;
        const Vec3 to = points[i] - light.position;
        const float length = glm::length(to);
        if (!(light.pdf_towards > 0) || length < 1e-3F) continue;
        const double lux = static_cast<double>(light.luminance * light.cos_lamp) /
                           static_cast<double>(light.pdf_towards * length * length);
        Thing thing;
        SurfacePoint at;
        const Ray ray{light.position, to / length, 1e-3F, length - 1e-3F};
        if (lux > 0 && !first_counting(set.world, ray, counts, thing, at)) {
            ways.push_back({light.position, points[i], lux});
        }
    }
    return ways;
}

double share_stopped(const Board& board, const Vec3& by, const std::vector<LightWay>& ways) {
    const Point centre = board.centre + by;
    const Frame frame =
        looking_frame(board.aim ? glm::normalize(*board.aim - centre) : board.facing);
    double stopped = 0;
    double all = 0;
    for (const LightWay& way : ways) {
        all += way.light;
        if (passes_through(centre, frame, board, way)) stopped += way.light;
    }
    return all > 0 ? stopped / all : 0;
}

std::string freeing_move_text(const StagedSet& set,
                              int board,
                              const std::vector<LightWay>& ways,
                              const std::string& frees) {
    const Board& flag = set.scene.boards[static_cast<size_t>(board)];
    const Field<Triple>* position = written_position(set, {ThingKind::kBoard, board});
    const RoomWalls walls(set);
    for (int cm = 1; position != nullptr && cm <= kMostMove; ++cm) {
        const float distance = 0.01F * static_cast<float>(cm);
        for (const Direction& way : ways_out(set.scene.camera, true)) {
            const Vec3 by = distance * way;
            if (share_stopped(flag, by, ways) > kFreed) continue;
            if (!is_in_room(set, walls, flag.centre, flag.centre + by)) continue;
            return length_text(distance) + " " + way_text(way, set.scene.camera) + " it leaves " +
                   frees + " free: " + moved_text(*position, by);
        }
    }
    return "move it out of the beam";
}

}  // namespace dapple
