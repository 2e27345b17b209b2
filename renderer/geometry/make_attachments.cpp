#include "geometry/make_attachments.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace dapple {

namespace {

constexpr int kTubeSegments = 128;
constexpr float kLeastOpening = 0.1F;  // m, of barn doors on a fixture without a housing
constexpr float kOpeningPerSource = 1.5F;
constexpr float kLeafStep = 0.5e-3F;  // m, from one leaf's hinge to the next: shut leaves overlap

constexpr float kRodRadius = 12e-3F;  // m
constexpr float kFootRadius = 8e-3F;
constexpr float kFootSpread = 0.45F;
constexpr float kFootHeight = 0.30F;
constexpr int kRodSegments = 24;

void add_quad(Mesh& mesh, const Point& a, const Point& b, const Point& c, const Point& d) {
    const auto first = static_cast<uint32_t>(mesh.positions.size());
    for (const Point& p : {a, b, c, d}) mesh.positions.push_back(p);
    mesh.triangles.emplace_back(first, first + 1, first + 2);
    mesh.triangles.emplace_back(first, first + 2, first + 3);
}

Mesh finished(Mesh mesh, const Fixture& fixture, MaterialId material) {
    mesh.name = fixture.name;
    mesh.materials.assign(mesh.triangles.size(), material);
    return mesh;
}

struct Circle {
    Point centre{0};
    float radius = 0;
};

// The side of a tube from one circle to another. Both circles are in planes across the frame's n.
void add_band(Mesh& mesh, const Frame& frame, const Circle& from, const Circle& to, int segments) {
    const auto at = [&](const Circle& circle, int i) {
        const double phi = 2 * kPi * (i % segments) / segments;
        return circle.centre + circle.radius * (static_cast<float>(std::cos(phi)) * frame.s +
                                                static_cast<float>(std::sin(phi)) * frame.t);
    };
    for (int i = 0; i < segments; ++i) {
        add_quad(mesh, at(from, i), at(from, i + 1), at(to, i + 1), at(to, i));
    }
}

void add_rod(Mesh& mesh, const Point& from, const Point& to, float radius) {
    const Frame frame(glm::normalize(to - from));
    add_band(mesh, frame, {from, radius}, {to, radius}, kRodSegments);
    add_band(mesh, frame, {to, radius}, {to, 0}, kRodSegments);
}

}  // namespace

Vec2 barn_door_opening(const Fixture& f) {
    if (f.form == FixtureForm::kPanel) return 0.5F * f.panel_size;
    if (f.housing_diameter > 0) return Vec2(0.5F * f.housing_diameter);
    return Vec2(0.5F * std::max(kLeastOpening, kOpeningPerSource * f.source_diameter));
}

Mesh make_barn_doors(const Fixture& f, MaterialId material) {
    if (!f.barn_doors) return {};
    Mesh mesh;
    const Frame frame = fixture_frame(f);
    const Vec2 half = barn_door_opening(f);
    // From the middle to each hinge: left, right, top, bottom as seen from behind the fixture.
    const std::array<Vec2, 4> outwards = {Vec2(-1, 0), Vec2(1, 0), Vec2(0, 1), Vec2(0, -1)};
    for (size_t i = 0; i < 4; ++i) {
        const bool is_side = i < 2;
        const float across = is_side ? half.x : half.y;
        const float along = is_side ? half.y : half.x;
        const Vec3 out = outwards[i].x * frame.s + outwards[i].y * frame.t;
        const Vec3 hinge_way = is_side ? frame.t : frame.s;
        const float angle = (*f.barn_doors)[i];
        const Vec3 leaf =
            2 * across * kLeafPerOpening * (std::sin(angle) * frame.n - std::cos(angle) * out);
        const Point hinge = f.position + across * out +
                            (kAttachmentGap + kLeafStep * static_cast<float>(i)) * frame.n;
        add_quad(mesh,
                 hinge - along * hinge_way,
                 hinge + along * hinge_way,
                 hinge + along * hinge_way + leaf,
                 hinge - along * hinge_way + leaf);
    }
    return finished(std::move(mesh), f, material);
}

Mesh make_snoot(const Fixture& f, MaterialId material) {
    if (!(f.snoot_diameter > 0)) return {};
    Mesh mesh;
    const Frame frame = fixture_frame(f);
    const float radius = 0.5F * f.snoot_diameter;
    const Point back = f.position + kAttachmentGap * frame.n;
    const Point front = f.position + f.snoot_length * frame.n;
    add_band(mesh, frame, {back, radius}, {front, radius}, kTubeSegments);
    if (f.housing_diameter > f.snoot_diameter) {
        add_band(mesh, frame, {back, 0.5F * f.housing_diameter}, {back, radius}, kTubeSegments);
    }
    return finished(std::move(mesh), f, material);
}

Point stand_top(const Fixture& f) {
    const float behind = f.housing_diameter > 0 ? 0.5F * f.housing_length : 0.05F;
    const float below = std::max(0.5F * f.housing_diameter, 0.5F * f.source_diameter + 0.02F);
    return f.position - behind * f.axis - Vec3(0, below, 0);
}

std::vector<StandRod> stand_rods(const Fixture& f, float floor) {
    const Point top = stand_top(f);
    const float height = top.y - floor;
    if (!(height > 2 * kRodRadius)) return {};
    const float scale = std::min(1.0F, height / (2 * kFootHeight));
    const Point foot(top.x, floor, top.z);
    std::vector<StandRod> rods = {{foot + Vec3(0, 0.5F * scale * kFootHeight, 0), top, kRodRadius}};
    for (int i = 0; i < 3; ++i) {
        const double phi = 2 * kPi * (i + 0.25) / 3;
        const Vec3 out(static_cast<float>(std::cos(phi)), 0, static_cast<float>(std::sin(phi)));
        rods.push_back({foot + scale * kFootSpread * out + Vec3(0, kFootRadius, 0),
                        foot + Vec3(0, scale * kFootHeight, 0),
                        kFootRadius});
    }
    return rods;
}

Mesh make_stand(const Fixture& f, float floor, MaterialId material) {
    Mesh mesh;
    for (const StandRod& rod : stand_rods(f, floor)) add_rod(mesh, rod.from, rod.to, rod.radius);
    if (mesh.triangles.empty()) return {};
    return finished(std::move(mesh), f, material);
}

std::vector<float> surfaces_below(const std::vector<Mesh>& room, const Point& p) {
    std::vector<float> heights;
    for (const Mesh& mesh : room) {
        for (const glm::uvec3& t : mesh.triangles) {
            const Point& a = mesh.positions[t.x];
            const Vec3 ab = mesh.positions[t.y] - a;
            const Vec3 ac = mesh.positions[t.z] - a;
            const double det = static_cast<double>(ab.x) * ac.z - static_cast<double>(ab.z) * ac.x;
            if (det == 0) continue;  // the triangle is upright
            const double x = p.x - a.x;
            const double z = p.z - a.z;
            const double u = (x * ac.z - z * ac.x) / det;
            const double v = (ab.x * z - ab.z * x) / det;
            if (u < 0 || v < 0 || u + v > 1) continue;
            const auto y = static_cast<float>(a.y + u * ab.y + v * ac.y);
            if (y < p.y) heights.push_back(y);
        }
    }
    return heights;
}

std::optional<float> floor_below(const std::vector<Mesh>& room, const Point& p) {
    const std::vector<float> heights = surfaces_below(room, p);
    if (heights.empty()) return std::nullopt;
    return *std::min_element(heights.begin(), heights.end());
}

}  // namespace dapple
