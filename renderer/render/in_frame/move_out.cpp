// A thing is out of the frame past one edge when every corner of its meshes is on the outer side of
// that edge's plane, which goes through the lens. Only the part between the planes of the two edges
// beside it counts, so triangles are clipped to these first. A move changes a corner's distance
// from the plane in proportion, so one step is exact for a sideways move of a rigid thing. It is
// repeated because a fixture turns as it moves, to keep its aim.
#include "render/in_frame/move_out.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "render/in_frame/thing_meshes.h"
#include "transport/picture_edges.h"

namespace dapple {

namespace {

constexpr float kNear = 1e-3F;  // m, in front of the lens
constexpr int kMostSteps = 32;
constexpr double kStep = 0.01;   // m, to which moves are rounded up
constexpr float kSpare = 1e-4F;  // m, against rounding

// The normals of the planes through the lens and the frame's edges, outwards, in the camera's
// frame; in the order of MoveWay. A lens of glass that draws bends the edges: then the planes go
// through their outermost places.
using EdgeNormals = std::array<Vec3, 4>;

EdgeNormals edge_normals(const Camera& camera) {
    const PictureEdges edges = find_picture_edges(camera);
    const float x = edges.outermost.x;
    const float y = edges.outermost.y;
    return {Vec3(-1, 0, -x), Vec3(1, 0, -x), Vec3(0, 1, -y), Vec3(0, -1, -y)};
}

using Polygon = std::vector<Vec3>;

// Leaves the part of the polygon where `height` is not above 0.
template <class Height>
void cut(Polygon& polygon, Polygon& kept, const Height& height) {
    kept.clear();
    for (size_t i = 0; i < polygon.size(); ++i) {
        const Vec3& a = polygon[i];
        const Vec3& b = polygon[(i + 1) % polygon.size()];
        const float ha = height(a);
        const float hb = height(b);
        if (ha <= 0) kept.push_back(a);
        if ((ha <= 0) != (hb <= 0)) kept.push_back(a + ha / (ha - hb) * (b - a));
    }
    polygon.swap(kept);
}

// Measures how far meshes must move out past one edge. `way` is the move's direction in the
// camera's frame.
class EdgeDistance {
  public:
    EdgeDistance(const Camera& camera, const EdgeNormals& normals, MoveWay edge, const Vec3& way)
        : frame_(camera.frame), lens_(camera.position) {
        const bool is_side = edge == MoveWay::kLeft || edge == MoveWay::kRight;
        normal_ = normals[static_cast<size_t>(edge)];
        beside_ = {normals[is_side ? 2 : 0], normals[is_side ? 3 : 1]};
        rate_ = glm::dot(normal_, way);
    }

    // Infinite if no distance is enough.
    float of(const std::vector<Mesh>& meshes) {
        if (!(rate_ > 0)) return kInfinity;
        float most = 0;
        for (const Mesh& mesh : meshes) {
            corners_.clear();
            for (const Point& p : mesh.positions) corners_.push_back(frame_.to_local(p - lens_));
            for (const glm::uvec3& t : mesh.triangles) most = std::max(most, of_triangle(t));
        }
        return most;
    }

  private:
    float of_triangle(const glm::uvec3& t) {
        part_ = {corners_[t.x], corners_[t.y], corners_[t.z]};
        cut(part_, kept_, [](const Vec3& p) { return kNear - p.z; });
        for (const Vec3& side : beside_) {
            cut(part_, kept_, [&](const Vec3& p) { return glm::dot(side, p); });
        }
        float most = 0;
        for (const Vec3& p : part_) most = std::max(most, -glm::dot(normal_, p) / rate_);
        return most;
    }

    Frame frame_;
    Point lens_;
    Vec3 normal_{0};
    std::array<Vec3, 2> beside_{};
    float rate_ = 0;
    std::vector<Vec3> corners_;
    Polygon part_, kept_;
};

Bounds bounds_of(const std::vector<Mesh>& meshes) {
    Bounds bounds;
    for (const Mesh& mesh : meshes) {
        for (const Point& p : mesh.positions) bounds.add(p);
    }
    return bounds;
}

bool is_inside(const Bounds& inner, const Bounds& outer) {
    return glm::all(glm::greaterThanEqual(inner.low, outer.low - kSpare)) &&
           glm::all(glm::lessThanEqual(inner.high, outer.high + kSpare));
}

// Repeats `rest_at`, which returns how far there is to go after a distance, until there is nothing
// left. Nothing if there is no end.
template <class RestAt>
std::optional<double> find_distance(const RestAt& rest_at) {
    double distance = 0;
    for (int step = 0; step < kMostSteps; ++step) {
        stop_if_asked();
        const float rest = rest_at(static_cast<float>(distance));
        if (!std::isfinite(rest)) return std::nullopt;
        if (rest <= 0) return distance;
        distance = kStep * std::ceil((distance + static_cast<double>(rest + kSpare)) / kStep);
    }
    return std::nullopt;
}

MoveWay opposite(MoveWay way) {
    constexpr std::array<MoveWay, 4> kOpposites = {
        MoveWay::kRight, MoveWay::kLeft, MoveWay::kDown, MoveWay::kUp};
    return kOpposites[static_cast<size_t>(way)];
}

// The moves of one thing in all directions.
class MoveSearch {
  public:
    MoveSearch(const Scene& scene, const Thing& thing)
        : camera_(scene.camera),
          normals_(edge_normals(camera_)),
          meshes_(scene, thing),
          here_(meshes_.moved_by(Vec3(0))),
          room_(bounds_of(scene.room)) {
        if (room_.empty()) room_ = {Point(-kInfinity), Point(kInfinity)};
    }

    std::optional<double> of_thing(MoveWay way) const {
        const bool is_upright = way == MoveWay::kUp || way == MoveWay::kDown;
        if (is_upright && meshes_.fixture() && meshes_.fixture()->stand) return std::nullopt;
        const Direction direction = direction_of(way, camera_);
        EdgeDistance edge(camera_, normals_, way, camera_.frame.to_local(direction));
        const std::optional<double> distance =
            find_distance([&](float d) { return edge.of(meshes_.moved_by(d * direction)); });
        if (!distance) return std::nullopt;
        Bounds allowed = bounds_of(here_);  // a thing may be in an opening of a wall
        allowed.add(room_);
        const Vec3 by = static_cast<float>(*distance) * direction;
        return is_inside(bounds_of(meshes_.moved_by(by)), allowed) ? distance : std::nullopt;
    }

    std::optional<double> of_camera(MoveWay way) const {
        const Direction direction = direction_of(way, camera_);
        const auto moved = [&](float d) {
            Camera camera = camera_;
            camera.position += d * direction;
            return camera;
        };
        const Vec3 of_the_thing = -camera_.frame.to_local(direction);
        const std::optional<double> distance = find_distance([&](float d) {
            return EdgeDistance(moved(d), normals_, opposite(way), of_the_thing).of(here_);
        });
        if (!distance) return std::nullopt;
        const Point place = moved(static_cast<float>(*distance)).position;
        return is_inside({place, place}, room_) ? distance : std::nullopt;
    }

  private:
    const Camera& camera_;
    EdgeNormals normals_;
    ThingMeshes meshes_;
    std::vector<Mesh> here_;
    Bounds room_;
};

void keep_shorter(std::optional<Move>& best, MoveWay way, const std::optional<double>& distance) {
    if (distance && (!best || *distance < best->distance)) best = Move{way, *distance};
}

}  // namespace

Direction direction_of(MoveWay way, const Camera& camera) {
    if (way == MoveWay::kLeft) return -camera.frame.s;
    if (way == MoveWay::kRight) return camera.frame.s;
    return way == MoveWay::kUp ? Direction(0, 1, 0) : Direction(0, -1, 0);
}

MovesOut find_moves_out(const Scene& scene, const Thing& thing) {
    const MoveSearch search(scene, thing);
    MovesOut moves;
    for (const MoveWay way : kAllMoveWays) {
        keep_shorter(moves.of_thing, way, search.of_thing(way));
        keep_shorter(moves.of_camera, way, search.of_camera(way));
    }
    return moves;
}

}  // namespace dapple
