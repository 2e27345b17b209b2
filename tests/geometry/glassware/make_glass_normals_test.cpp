// The normals that light is refracted by.
#include <doctest/doctest.h>

#include <algorithm>

#include "geometry/glassware/glass_samples.h"
#include "geometry/glassware/make_glass_forms.h"
#include "geometry/glassware/outline_measure.h"
#include "scene/glass/glass_limits.h"

namespace dapple {

namespace {

// The true normal of a turned surface near p, from the outline's nearest piece; on pieces with a
// pattern from central differences of  r - (r_outline(y) - cut(y, φ)),  so that nothing is shared
// with the derivatives the mesh was made with.
class TrueNormals {
  public:
    TrueNormals(const Outline& outline, const Relief& relief)
        : outline_(outline), relief_(relief) {}

    // The piece that a point near the surface, with a normal that is nearly right, belongs to.
    OutlineFoot foot(const glm::dvec3& p, const glm::dvec3& n) const {
        const double r = std::hypot(p.x, p.z);
        return nearest_on(outline_, {r, p.y}, {(n.x * p.x + n.z * p.z) / std::max(r, 1e-12), n.y});
    }

    glm::dvec3 at(const OutlineFoot& foot, const glm::dvec3& p) const {
        if (foot.piece->patterned) return ribbed(*foot.piece, p);
        const glm::dvec2 in_plane(std::hypot(p.x, p.z), p.y);
        const glm::dvec2 n = normal_at(*foot.piece, foot.s);
        if (in_plane.x < 1e-12) return {0, n.y, 0};
        return {n.x * p.x / in_plane.x, n.y, n.x * p.z / in_plane.x};
    }

  private:
    double outside(const OutlinePiece& piece, const glm::dvec3& p) const {
        const double r = piece.start.x + (p.y - piece.start.y) / std::tan(piece.heading);
        return std::hypot(p.x, p.z) - (r - relief_.at(std::atan2(p.z, p.x), p.y).cut);
    }

    glm::dvec3 ribbed(const OutlinePiece& piece, const glm::dvec3& p) const {
        constexpr double kStep = 1e-7;  // m: error (step²) and rounding both below 1e-8
        glm::dvec3 gradient;
        for (int axis = 0; axis < 3; ++axis) {
            glm::dvec3 step(0);
            step[axis] = kStep;
            gradient[axis] = outside(piece, p + step) - outside(piece, p - step);
        }
        return glm::normalize(gradient);
    }

    const Outline& outline_;
    const Relief& relief_;
};

// The largest angle between interpolated and true normal at triangle centres, rad, less what the
// error of the place accounts for. Chords around the axis are up to 5 µm, or a ten-thousandth of
// the radius, inside the surface. On an arc of 1.5 mm radius the nearest place of the true surface
// is then 3 mrad further along the arc. That is an error of place, which is invisible, and not of
// the normal.
double largest_error(const Mesh& mesh, const Outline& outline, const Relief& relief) {
    const TrueNormals truth(outline, relief);
    double largest = 0;
    for (const glm::uvec3& t : mesh.triangles) {
        const MeshTriangle facet(mesh, t);
        const glm::dvec3 centre = facet.centre();
        const OutlineFoot foot = truth.foot(centre, facet.normal_at_centre());
        const double off = std::max(kChordError, 1e-4 * std::hypot(centre.x, centre.z));
        const double error = angle_between(facet.normal_at_centre(), truth.at(foot, centre));
        largest = std::max(largest, error - off * std::abs(foot.piece->curvature));
    }
    return largest;
}

}  // namespace

// 0.5 mrad turns a refracted ray by 0.26 mrad: 1 mm on a wall 4 m away, less than the blur of any
// source wider than a few mm.
TEST_CASE("interpolated normals of a ribbed jar are within 0.5 mrad of the true ones") {
    const GlassObject jar =
        with_ribs(sample_glass(GlassForm::kJar, 0.26F, 0.12F, 0.003F), 24, 0.0015F);
    const Vessel vessel = make_vessel(jar);
    CHECK(largest_error(glass_mesh(jar), vessel.glass, vessel.relief) < 0.5e-3);
}

TEST_CASE("interpolated normals of balls and all vessels are within 0.5 mrad of the true ones" *
          doctest::test_suite("slow")) {
    const GlassObject ball = sample_glass(GlassForm::kBall, 0.1F, 0.1F, 0);
    CHECK(largest_error(glass_mesh(ball), make_ball_outline(0.1F), {}) < 0.5e-3);
    for (const GlassObject& glass : vessels()) {
        CAPTURE(describe(glass));
        const Vessel vessel = make_vessel(glass);
        // Dents overlap, so that their slopes bend more than a single dent's. In the grooves
        // between reeds, slopes reverse where the reeds fade.
        const bool sharp =
            glass.surface == GlassSurface::kHammered || glass.surface == GlassSurface::kReeded;
        const double most = sharp ? 1e-3 : 0.5e-3;
        CHECK(largest_error(glass_mesh(glass), vessel.glass, vessel.relief) < most);
    }
}

TEST_CASE("normals have unit length and lie on the outer side of their triangles" *
          doctest::test_suite("figures")) {
    for (GlassObject glass : made_glasses()) {
        if (is_vessel(glass.form)) glass = with_liquid(glass, 0.55F);
        for (const GlassObject& placed : {glass, somewhere(glass)}) {
            CAPTURE(describe(placed));
            for (const Mesh& mesh : make_glass(placed, Scene{})) {
                REQUIRE(mesh.normals.size() == mesh.positions.size());
                float worst_length = 0;
                bool all_finite = true;
                for (const Normal& n : mesh.normals) {
                    worst_length = std::max(worst_length, std::abs(glm::length(n) - 1));
                    all_finite = all_finite && is_finite(n);
                }
                CHECK(all_finite);
                CHECK(worst_length < 1e-6F);  // rounding of floats

                int wrong = 0;
                for (const glm::uvec3& t : mesh.triangles) {
                    const MeshTriangle facet(mesh, t);
                    // Floats round places to 0.2 µm here; slivers thinner than 2 µm, which only
                    // the cut of a liquid's level leaves, may turn by that.
                    const double longest =
                        std::max({glm::length(facet.corner[1] - facet.corner[0]),
                                  glm::length(facet.corner[2] - facet.corner[1]),
                                  glm::length(facet.corner[0] - facet.corner[2])});
                    if (glm::length(facet.cross()) < 2e-6 * longest) continue;
                    for (const glm::dvec3& n : facet.normal) {
                        if (glm::dot(facet.cross(), n) <= 0) ++wrong;
                    }
                }
                CHECK(wrong == 0);
            }
        }
    }
}

TEST_CASE("a pane's edges are sharp: every corner's normal is its own face's") {
    GlassObject pane = sample_glass(GlassForm::kPane, 0.3F, 0, 0.006F);
    pane.width = 0.2F;
    const Mesh mesh = glass_mesh(pane);
    CHECK(mesh.positions.size() == 24);
    for (const glm::uvec3& t : mesh.triangles) {
        const MeshTriangle facet(mesh, t);
        for (const glm::dvec3& n : facet.normal) {
            CHECK(angle_between(facet.cross(), n) < 1e-7);  // axis-aligned faces: exact
        }
    }
}

}  // namespace dapple
