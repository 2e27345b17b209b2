#include "geometry/glassware/make_glass_bubbles.h"

#include <algorithm>
#include <cmath>

#include "base/random.h"
#include "math/warps.h"
#include "scene/glass/glass_limits.h"

namespace dapple {

namespace {

constexpr uint32_t kRound = 48;  // vertices around a bubble
constexpr uint32_t kUp = 24;     // bands from pole to pole
constexpr double kLongest = 1.8;

struct Bubble {
    glm::dvec3 centre{0};
    glm::dvec3 along{0, 1, 0};  // direction of its length
    double radius = 0;          // m
    double stretch = 1;
};

void add_bubble(SolidMesh& mesh, const Bubble& bubble) {
    const glm::dvec3 side(1, 0, 0);
    const glm::dvec3 other = std::abs(bubble.along.x) < 0.9 ? side : glm::dvec3(0, 0, 1);
    const glm::dvec3 s = glm::normalize(glm::cross(bubble.along, other));
    const glm::dvec3 t = glm::cross(bubble.along, s);
    const auto first = static_cast<uint32_t>(mesh.positions.size());
    const auto add = [&](double polar, double round) {
        const glm::dvec3 flat = std::sin(polar) * (std::cos(round) * s + std::sin(round) * t);
        const glm::dvec3 up = std::cos(polar) * bubble.along;
        mesh.positions.push_back(bubble.centre + bubble.radius * (flat + bubble.stretch * up));
        mesh.normals.push_back(glm::normalize(flat + up / bubble.stretch));
    };
    add(0, 0);
    for (uint32_t j = 1; j < kUp; ++j) {
        for (uint32_t i = 0; i < kRound; ++i) add(kPi * j / kUp, 2 * kPi * i / kRound);
    }
    add(kPi, 0);
    const auto ring = [&](uint32_t j, uint32_t i) {
        return first + 1 + (j - 1) * kRound + i % kRound;
    };
    const uint32_t last = first + 1 + (kUp - 1) * kRound;
    for (uint32_t i = 0; i < kRound; ++i) {
        mesh.triangles.emplace_back(first, ring(1, i), ring(1, i + 1));
        for (uint32_t j = 1; j + 1 < kUp; ++j) {
            mesh.triangles.emplace_back(ring(j, i), ring(j + 1, i), ring(j + 1, i + 1));
            mesh.triangles.emplace_back(ring(j, i), ring(j + 1, i + 1), ring(j, i + 1));
        }
        mesh.triangles.emplace_back(last, ring(kUp - 1, i + 1), ring(kUp - 1, i));
    }
}

// Half way through the wall, at a random place on the straight pieces of the cavity, each of which
// is as probable as its area is large.
void place_in_wall(const Vessel& vessel, RandomStream& random, Bubble& bubble) {
    const double margin = kLongest * bubble.radius;
    const auto area = [&](const OutlinePiece& piece) {
        const bool room = piece.curvature == 0 && piece.length > 2 * margin;
        const double mean = position_at(piece, 0.5 * piece.length).x;
        return room ? (piece.length - 2 * margin) * mean : 0.0;
    };
    double left = 0;
    for (const OutlinePiece& piece : vessel.cavity) left += area(piece);
    left *= random.next();
    const OutlinePiece* chosen = nullptr;
    for (const OutlinePiece& piece : vessel.cavity) {
        if (area(piece) > 0) chosen = &piece;
        left -= area(piece);
        if (chosen == &piece && left <= 0) break;
    }
    if (chosen == nullptr) {
        bubble.radius = 0;
        return;
    }
    const double s = margin + (chosen->length - 2 * margin) * random.next();
    const glm::dvec2 at = position_at(*chosen, s) - 0.5 * vessel.wall * normal_at(*chosen, s);
    const double phi = 2 * kPi * random.next();
    const double heading = heading_at(*chosen, s);
    const glm::dvec3 e_r(std::cos(phi), 0, std::sin(phi));
    bubble.centre = at.x * e_r + glm::dvec3(0, at.y, 0);
    bubble.along = std::cos(heading) * e_r + glm::dvec3(0, std::sin(heading), 0);
}

// At a random place in a pane, rod or ball, far enough from its surface.
void place_in_solid(const GlassObject& object, RandomStream& random, Bubble& bubble) {
    const double keep = kLongest * bubble.radius + object.relief_depth + 1e-4;
    const double u = random.next();
    const double v = random.next();
    const double w = random.next();
    if (object.form == GlassForm::kPane) {
        const double thick = object.wall - object.relief_depth;
        bubble.centre = {(u - 0.5) * (object.width - 2 * keep),
                         keep + v * (object.height - 2 * keep),
                         -0.5 * object.wall + 0.5 * thick};
    } else if (object.form == GlassForm::kRod) {
        const double r = std::sqrt(u) * (0.5 * object.diameter - keep);
        bubble.centre = {r * std::cos(2 * kPi * v),
                         keep + w * (object.height - 2 * keep),
                         r * std::sin(2 * kPi * v)};
    } else {
        const double r = std::cbrt(u) * (0.5 * object.diameter - keep);
        const auto d = glm::dvec3(sample_sphere(static_cast<float>(v), static_cast<float>(w)));
        bubble.centre = glm::dvec3(0, 0.5 * object.diameter, 0) + r * d;
    }
}

}  // namespace

SolidMesh make_bubbles(const GlassObject& object) {
    const bool vessel = is_vessel(object.form);
    const Vessel walls = vessel ? make_vessel(object) : Vessel{};
    SolidMesh mesh;
    for (int i = 0; i < object.bubbles; ++i) {
        RandomStream random(object.seed, 1, static_cast<uint64_t>(i), Purpose::kGlass);
        const double u = random.next();
        Bubble bubble;
        bubble.radius = 0.5 * object.bubble_diameter * (0.35 + 0.65 * u * u * u);
        bubble.stretch = 1 + (kLongest - 1) * random.next();
        if (vessel) {
            place_in_wall(walls, random, bubble);
        } else {
            place_in_solid(object, random, bubble);
        }
        if (bubble.radius > 0) add_bubble(mesh, bubble);
    }
    return mesh;
}

}  // namespace dapple
