#include "geometry/make_glass_lathe.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace dapple {

namespace {

constexpr double kMinStep = 0.0283;    // rad, √(8e-4): a chord's height is a ten-thousandth of r
constexpr double kMaxStep = 0.1;       // rad, along small arcs
constexpr int kMinSegments = 96;       // round small circles
constexpr double kOnAxis = 1e-9;       // m
constexpr double kSmoothJoint = 1e-9;  // rad
constexpr int kMinSegmentsPerRib = 24;
constexpr int kMaxRibSegments = 2048;  // round; more than that and the mesh outgrows its use
constexpr int kMaxFadeRows = 56;
constexpr int kRibbedSideRows = 4;  // between the fades, where the surface is ruled

// One circle of vertices. Neighbours in the list are joined by a band of triangles unless a crease
// separates them.
struct Ring {
    glm::dvec2 position;
    glm::dvec2 normal;
    bool fine = false;          // as many vertices as the ribs need
    bool after_crease = false;  // no band to the ring before
    uint32_t first = 0;         // vertex
    uint32_t count = 0;
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

// Where ribs lie nearest to the axis, and so are steepest.
double narrowest_ribs(const Outline& outline) {
    double r = kInfinity;
    for (const OutlinePiece& piece : outline) {
        if (piece.ribbed) r = std::min({r, piece.start.x, position_at(piece, piece.length).x});
    }
    return r;
}

uint32_t plain_segments(double radius) {
    const int wanted = 4 * steps(kPi / 2 / arc_step(radius));  // the widest places are vertices
    return static_cast<uint32_t>(std::max(kMinSegments, wanted));
}

double rib_steepness(const Ribs& ribs, double radius) {
    return 0.5 * ribs.depth * ribs.count / (radius - 0.5 * ribs.depth);
}

// The largest slope of a fade, at a trough in its middle: depth f'.
double fade_steepness(const Ribs& ribs) {
    return ribs.depth * 0.5 * kPi / ribs.fade;
}

// Round, the flanks' turn a sin Nφ bends by a N², and the fade's slope depth f' (1 - cos Nφ)/2 by
// half its steepness times N², elsewhere and at right angles to that.
uint32_t ribbed_segments(const Ribs& ribs, double radius) {
    const double bend =
        std::max(rib_steepness(ribs, radius), 0.5 * fade_steepness(ribs)) * ribs.count * ribs.count;
    const double step = std::sqrt(9 * kNormalError / bend);
    const int wanted = 2 * steps(kPi / ribs.count / step);  // per rib; even: troughs are vertices
    const int most = std::max(kMinSegmentsPerRib, kMaxRibSegments / ribs.count / 2 * 2);
    return static_cast<uint32_t>(ribs.count * std::clamp(wanted, kMinSegmentsPerRib, most));
}

// Up the fade, as a multiple of its length squared: f'' is at most π²/2, at the ends; the slope
// itself bends by π² times its steepness, in the middle and at right angles to that.
int fade_rows(const Ribs& ribs, double radius) {
    const double bend =
        std::max(0.5 * rib_steepness(ribs, radius), fade_steepness(ribs)) * kPi * kPi;
    return std::clamp(steps(std::sqrt(bend / (9 * kNormalError))), 4, kMaxFadeRows);
}

// Shares of a piece's length at which it gets a ring, from 0 to 1.
std::vector<double> ring_places(const OutlinePiece& piece, const Ribs& ribs, double radius) {
    const glm::dvec2 end = position_at(piece, piece.length);
    std::vector<double> places{0};
    const auto add = [&](double to, int rows) {
        const double from = places.back();
        for (int i = 1; i <= rows; ++i) places.push_back(from + (to - from) * i / rows);
    };
    if (piece.ribbed) {
        const double fade = ribs.fade / (ribs.high - ribs.low);
        const int rows = fade_rows(ribs, std::min(piece.start.x, end.x));
        add(fade, rows);
        add(1 - fade, kRibbedSideRows);
        add(1, rows);
    } else if (piece.curvature != 0) {
        const double angle = std::abs(piece.curvature) * piece.length;
        add(1, steps(angle / arc_step(1 / std::abs(piece.curvature))));
    } else {
        add(1, steps(2 * piece.length / radius));
    }
    return places;
}

std::vector<Ring> make_rings(const Outline& outline, const Ribs& ribs, double radius) {
    std::vector<Ring> rings;
    for (size_t i = 0; i < outline.size(); ++i) {
        const OutlinePiece& piece = outline[i];
        for (const double place : ring_places(piece, ribs, radius)) {
            Ring ring{position_at(piece, place * piece.length),
                      normal_at(piece, place * piece.length),
                      piece.ribbed};
            if (place == 0 && i > 0) {
                // Joints share one place exactly; a smooth joint shares its ring too.
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

void add_vertex(SolidMesh& mesh, const Ring& ring, const Ribs& ribs, double phi) {
    const double y = ring.position.y;
    const double cut = ring.fine ? ribs.cut(y, phi) : 0;
    const double r = ring.position.x - cut;
    const glm::dvec3 e_r(std::cos(phi), 0, std::sin(phi));
    const glm::dvec3 e_phi(-e_r.z, 0, e_r.x);
    mesh.positions.push_back(r * e_r + glm::dvec3(0, y, 0));

    // With the outline's direction (r_s, y_s) = (-n_y, n_x).
    const double r_s = -ring.normal.y;
    const double y_s = ring.normal.x;
    double turn = 0;     // R_φ / R
    double slope = r_s;  // R_s
    if (ring.fine && ribs.count > 0) {
        turn = -0.5 * ribs.depth * ribs.share(y) * ribs.count * std::sin(ribs.count * phi) / r;
        slope -= 0.5 * ribs.depth * ribs.share_slope(y) * (1 - std::cos(ribs.count * phi)) * y_s;
    }
    mesh.normals.push_back(
        glm::normalize(y_s * e_r - y_s * turn * e_phi - glm::dvec3(0, slope, 0)));
}

// The band between two rings whose counts may differ: whichever ring is behind in angle steps on.
void add_band(SolidMesh& mesh, const Ring& a, const Ring& b) {
    const uint32_t steps_a = a.count > 1 ? a.count : 0;  // a single vertex on the axis stays
    const uint32_t steps_b = b.count > 1 ? b.count : 0;
    const auto vertex = [](const Ring& ring, uint32_t i) { return ring.first + i % ring.count; };
    uint32_t i = 0;
    uint32_t j = 0;
    while (i < steps_a || j < steps_b) {
        const bool step_a =
            j == steps_b || (i < steps_a && static_cast<uint64_t>(i + 1) * steps_b <=
                                                static_cast<uint64_t>(j + 1) * steps_a);
        if (step_a) {
            mesh.triangles.emplace_back(vertex(a, i), vertex(b, j), vertex(a, i + 1));
            ++i;
        } else {
            mesh.triangles.emplace_back(vertex(a, i), vertex(b, j), vertex(b, j + 1));
            ++j;
        }
    }
}

}  // namespace

double Ribs::share(double y) const {
    const double x = std::clamp(std::min(y - low, high - y) / fade, 0.0, 1.0);
    return 0.5 * (1 - std::cos(kPi * x));
}

double Ribs::share_slope(double y) const {
    const double x = std::clamp(std::min(y - low, high - y) / fade, 0.0, 1.0);
    const double sign = y - low < high - y ? 1 : -1;
    return sign * 0.5 * kPi / fade * std::sin(kPi * x);
}

double Ribs::cut(double y, double phi) const {
    if (count == 0) return 0;
    return 0.5 * depth * share(y) * (1 - std::cos(count * phi));
}

SolidMesh make_lathe_mesh(const Outline& outline, const Ribs& ribs) {
    assert(!outline.empty() && std::abs(outline.front().start.x) < kOnAxis);
    const double radius = widest(outline);
    const uint32_t plain = plain_segments(radius);
    const uint32_t fine =
        ribs.count > 0 ? std::max(plain, ribbed_segments(ribs, narrowest_ribs(outline))) : plain;
    std::vector<Ring> rings = make_rings(outline, ribs, radius);

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
        for (uint32_t i = 0; i < ring.count; ++i) {
            add_vertex(mesh, ring, ribs, 2 * kPi * i / ring.count);
        }
    }
    assert(rings.back().count == 1 && "an outline ends on the axis");
    for (size_t i = 1; i < rings.size(); ++i) {
        if (!rings[i].after_crease) add_band(mesh, rings[i - 1], rings[i]);
    }
    return mesh;
}

}  // namespace dapple
