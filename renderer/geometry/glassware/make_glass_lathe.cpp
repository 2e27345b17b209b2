#include "geometry/glassware/make_glass_lathe.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace dapple {

namespace {

constexpr double kMinStep = 0.0283;    // rad, √(8e-4): a chord's height is a ten-thousandth of r
constexpr double kMaxStep = 0.1;       // rad, along small arcs
constexpr int kMinSegments = 96;       // around small circles
constexpr double kOnAxis = 1e-9;       // m
constexpr double kSmoothJoint = 1e-9;  // rad
constexpr int kMinSegmentsPerRib = 24;
constexpr int kMaxRibSegments = 2048;  // around; a finer mesh is of no use
constexpr int kMaxFadeRows = 56;
constexpr int kReedFadeRows = 40;   // in grooves the slope reverses within a few segments
constexpr int kRibbedSideRows = 4;  // between the fades, where the surface is ruled

// One circle of vertices. Neighbours in the list are joined by a band of triangles unless a crease
// separates them.
struct Ring {
    glm::dvec2 position;
    glm::dvec2 normal;
    bool fine = false;          // as many vertices as the relief needs
    bool after_crease = false;  // no band to the ring before
    size_t piece = 0;           // index of the outline's piece that carries the band before it
    double turn = 0;            // rad, angle of its first vertex
    uint32_t first = 0;         // index of its first vertex
    uint32_t count = 0;
    uint32_t shift = 0;  // the vertex nearest to angle 0
};

double arc_step(double radius) {
    return std::clamp(std::sqrt(8 * kChordError / radius), kMinStep, kMaxStep);
}

int steps(double x) {
    return std::max(1, static_cast<int>(std::ceil(x - 1e-9)));
}

double widest(const Outline& outline) {
    double r = 0;
    for (const OutlinePiece& piece : outline) {
        r = std::max({r, piece.start.x, position_at(piece, piece.length).x});
    }
    return r;
}

// The side that the relief is cut into.
struct ReliefSide {
    double radius = kInfinity;  // m, where the relief is nearest to the axis and so steepest
    double length = 0;          // m
};

ReliefSide relief_side(const Outline& outline, const Relief& relief) {
    ReliefSide side;
    for (const OutlinePiece& piece : outline) {
        if (!piece.patterned) continue;
        side.radius = std::min({side.radius, piece.start.x, position_at(piece, piece.length).x});
        side.length += piece.length;
    }
    side.radius -= 0.5 * relief.depth;
    return side;
}

uint32_t plain_segments(double radius) {
    // A multiple of four, so that the widest places are vertices.
    const int wanted = 4 * steps(kPi / 2 / arc_step(radius));
    return static_cast<uint32_t>(std::max(kMinSegments, wanted));
}

// The largest slope of a fade, at a trough in its middle: depth f'.
double fade_steepness(const Relief& relief) {
    return relief.depth * 0.5 * kPi / relief.fade;
}

// Around the solid, the turn of the flanks, a sin Nφ, bends by a N². The slope of a fade,
// depth f' (1 - cos Nφ)/2, bends by half its steepness times N². The two do not add up, because
// they are at different places and at right angles.
uint32_t ribbed_segments(const Relief& relief, double radius) {
    const int count = relief.count;
    const double bend =
        std::max(relief.steepest(radius), 0.5 * fade_steepness(relief)) * count * count;
    const double step = std::sqrt(9 * kNormalError / bend);
    // Per rib. Even, so that troughs are vertices.
    const int wanted = 2 * steps(kPi / count / step);
    const int most = std::max(kMinSegmentsPerRib, kMaxRibSegments / count / 2 * 2);
    return static_cast<uint32_t>(count * std::clamp(wanted, kMinSegmentsPerRib, most));
}

uint32_t reeded_segments(const Relief& relief, double radius, uint32_t fewest) {
    const int multiple = kSegmentsPerReed * relief.count;
    const int most = std::max(4, kMaxRibSegments / multiple);
    const int wanted = std::clamp(steps(reed_steps(relief, radius) / kSegmentsPerReed), 4, most);
    return static_cast<uint32_t>(multiple * std::max(wanted, steps(1.0 * fewest / multiple)));
}

uint32_t relief_segments(const Relief& relief, const ReliefSide& side, uint32_t fewest) {
    switch (relief.surface) {
        case GlassSurface::kPlain:
            return fewest;
        case GlassSurface::kRibbed:
            return std::max(fewest, ribbed_segments(relief, side.radius));
        case GlassSurface::kReeded:
            return reeded_segments(relief, side.radius, fewest);
        default: {
            const double round = 2 * kPi * side.radius;
            const int wanted = relief_steps(relief, round, round * side.length);
            return std::max(fewest, static_cast<uint32_t>(wanted));
        }
    }
}

// Rows of vertices in a fade, from the bend of the normal times the fade's length squared. f'' is
// at most π²/2, at the ends. The slope of the fade itself bends by π² times its steepness, in the
// middle and at right angles to the former.
int fade_rows(const Relief& relief, double radius) {
    const double bend = std::max(0.5 * relief.steepest(radius), fade_steepness(relief)) * kPi * kPi;
    const int fewest = relief.surface == GlassSurface::kReeded ? kReedFadeRows : 4;
    return std::clamp(steps(std::sqrt(bend / (9 * kNormalError))), fewest, kMaxFadeRows);
}

// Along twisted ribs the edges between rows are chords of a circle around the axis.
int rows_of_turn(const Relief& relief, double height, double radius) {
    return steps(std::abs(relief.twist) * height / arc_step(radius));
}

// The circles of a cone widen. So a triangle's centre is not at the angle of its mean normal, but a
// third of a segment times the share of the widening away from it.
double cone_rows(const OutlinePiece& piece, const glm::dvec2& end) {
    constexpr double kMostWidening = 0.1;
    if (std::abs(std::sin(piece.heading)) < kSmoothJoint) return 1;  // flat: one normal
    return std::abs(std::log(end.x / piece.start.x)) / kMostWidening;
}

// Shares of a piece's length at which it gets a ring, from 0 to 1.
std::vector<double> ring_places(const OutlinePiece& piece, const Relief& relief, double radius) {
    const glm::dvec2 end = position_at(piece, piece.length);
    std::vector<double> places{0};
    const auto add = [&](double to, int rows) {
        const double from = places.back();
        for (int i = 1; i <= rows; ++i) places.push_back(from + (to - from) * i / rows);
    };
    if (piece.patterned && relief.ruled()) {
        const double height = relief.high - relief.low;
        const double fade = relief.fade / height;
        const double narrowest = std::min(piece.start.x, end.x) - 0.5 * relief.depth;
        const int turning = rows_of_turn(relief, relief.fade, piece.start.x);
        const int rows = fade_rows(relief, narrowest) + (relief.twist == 0 ? 0 : turning);
        add(fade, rows);
        add(1 - fade,
            std::max(kRibbedSideRows,
                     rows_of_turn(relief, height - 2 * relief.fade, piece.start.x)));
        add(1, rows);
    } else if (piece.patterned) {
        const double area = 2 * kPi * std::max(piece.start.x, end.x) * piece.length;
        add(1, relief_steps(relief, piece.length, area));
    } else if (piece.curvature != 0) {
        const double angle = std::abs(piece.curvature) * piece.length;
        add(1, steps(angle / arc_step(1 / std::abs(piece.curvature))));
    } else {
        add(1, steps(std::max(2 * piece.length / radius, cone_rows(piece, end))));
    }
    return places;
}

std::vector<Ring> make_rings(const Outline& outline, const Relief& relief, double radius) {
    std::vector<Ring> rings;
    for (size_t i = 0; i < outline.size(); ++i) {
        const OutlinePiece& piece = outline[i];
        for (const double place : ring_places(piece, relief, radius)) {
            Ring ring{position_at(piece, place * piece.length),
                      normal_at(piece, place * piece.length),
                      piece.patterned,
                      false,
                      i};
            if (place == 0 && i > 0) {
                // Pieces have exactly the same place at their joint, and one ring at a smooth one.
                Ring& joint = rings.back();
                ring.position = joint.position;
                joint.fine = joint.fine || ring.fine;
                if (glm::length(joint.normal - ring.normal) < kSmoothJoint) continue;
                ring.after_crease = true;
                ring.fine = joint.fine;
            }
            rings.push_back(ring);
        }
    }
    return rings;
}

void add_vertex(SolidMesh& mesh, const Ring& ring, const Relief& relief, double phi) {
    const double y = ring.position.y;
    const ReliefPoint cut = ring.fine ? relief.at(phi, y) : ReliefPoint{};
    const double r = ring.position.x - cut.cut;
    const glm::dvec3 e_r(std::cos(phi), 0, std::sin(phi));
    const glm::dvec3 e_phi(-e_r.z, 0, e_r.x);
    mesh.positions.push_back(r * e_r + glm::dvec3(0, y, 0));

    // With the outline's direction (r_s, y_s) = (-n_y, n_x).
    const double y_s = ring.normal.x;
    const double turn = -cut.along_x / r;                     // R_φ / R
    const double slope = -ring.normal.y - cut.along_y * y_s;  // R_s
    mesh.normals.push_back(
        glm::normalize(y_s * e_r - y_s * turn * e_phi - glm::dvec3(0, slope, 0)));
}

// Turns the ring, so that rows of vertices follow twisted ribs. The ring at the relief's upper end
// also finds its vertex nearest to angle 0, where its band to the plain glass above begins.
void turn_ring(Ring& ring, const Relief& relief) {
    if (!ring.fine || relief.twist == 0) return;
    const double height = std::clamp(ring.position.y, relief.low, relief.high) - relief.low;
    ring.turn = relief.twist * height;
    if (ring.position.y < relief.high - 1e-9) return;
    const double segments = std::floor(ring.turn * ring.count / (2 * kPi));
    const auto count = static_cast<int64_t>(ring.count);
    const int64_t turned = static_cast<int64_t>(segments) % count;
    ring.shift = static_cast<uint32_t>((count - turned) % count);
}

// Adds the band between two rings, whose counts may differ. Each step is along the ring that is
// behind in angle.
void add_band(SolidMesh& mesh, const Ring& a, const Ring& b) {
    const uint32_t steps_a = a.count > 1 ? a.count : 0;  // none at a vertex on the axis
    const uint32_t steps_b = b.count > 1 ? b.count : 0;
    const auto vertex_a = [&](uint32_t i) { return a.first + (i + a.shift) % a.count; };
    const auto vertex_b = [&](uint32_t i) { return b.first + i % b.count; };
    uint32_t i = 0;
    uint32_t j = 0;
    while (i < steps_a || j < steps_b) {
        const bool step_a =
            j == steps_b || (i < steps_a && static_cast<uint64_t>(i + 1) * steps_b <=
                                                static_cast<uint64_t>(j + 1) * steps_a);
        if (step_a) {
            mesh.triangles.emplace_back(vertex_a(i), vertex_b(j), vertex_a(i + 1));
            ++i;
        } else {
            mesh.triangles.emplace_back(vertex_a(i), vertex_b(j), vertex_b(j + 1));
            ++j;
        }
    }
}

}  // namespace

double reed_steps(const Relief& relief, double radius) {
    const double bend = std::pow(relief.steepest(radius), 3) / (kGroove * kGroove);
    return std::sqrt(bend / (9 * kNormalError));
}

int relief_steps(const Relief& relief, double length, double area) {
    const double wanted = std::sqrt(9 * kNormalError / relief.bend());
    const double coarsest = relief.rise / 12;
    const double step = std::max(std::min(wanted, coarsest), std::sqrt(area / kMaxReliefCells));
    return steps(length / step);
}

SolidMesh make_lathe_mesh(const Outline& outline, const Relief& relief, size_t inner_piece) {
    assert(!outline.empty() && std::abs(outline.front().start.x) < kOnAxis);
    const double radius = widest(outline);
    const uint32_t plain = plain_segments(radius);
    const uint32_t fine = relief_segments(relief, relief_side(outline, relief), plain);
    std::vector<Ring> rings = make_rings(outline, relief, radius);

    SolidMesh mesh;
    for (Ring& ring : rings) {
        ring.first = static_cast<uint32_t>(mesh.positions.size());
        if (ring.position.x < kOnAxis) {
            ring.count = 1;
            mesh.positions.emplace_back(0, ring.position.y, 0);
            mesh.normals.emplace_back(0, ring.normal.y < 0 ? -1 : 1, 0);
            continue;
        }
        ring.count = ring.fine ? fine : plain;
        turn_ring(ring, relief);
        for (uint32_t i = 0; i < ring.count; ++i) {
            add_vertex(mesh, ring, relief, ring.turn + 2 * kPi * i / ring.count);
        }
    }
    assert(rings.back().count == 1 && "an outline ends on the axis");
    for (size_t i = 1; i < rings.size(); ++i) {
        if (mesh.inner == SIZE_MAX && rings[i].piece >= inner_piece) {
            mesh.inner = mesh.triangles.size();
        }
        if (!rings[i].after_crease) add_band(mesh, rings[i - 1], rings[i]);
    }
    return mesh;
}

}  // namespace dapple
