// Light through made glass, by Snell's law at the mesh's triangles with interpolated normals.
#include <doctest/doctest.h>

#include <optional>

#include "geometry/glassware/glass_samples.h"

namespace dapple {

namespace {

struct Beam {
    glm::dvec3 origin;
    glm::dvec3 direction;
};

struct Crossing {
    double t;
    glm::dvec3 normal;  // interpolated
};

// Möller and Trumbore 1997.
std::optional<Crossing> cross_triangle(const Beam& beam, const MeshTriangle& facet, double t_min) {
    const glm::dvec3 e1 = facet.corner[1] - facet.corner[0];
    const glm::dvec3 e2 = facet.corner[2] - facet.corner[0];
    const glm::dvec3 p = glm::cross(beam.direction, e2);
    const double determinant = glm::dot(e1, p);
    if (determinant == 0) return {};
    const glm::dvec3 from = beam.origin - facet.corner[0];
    const double u = glm::dot(from, p) / determinant;
    const glm::dvec3 q = glm::cross(from, e1);
    const double v = glm::dot(beam.direction, q) / determinant;
    const double t = glm::dot(e2, q) / determinant;
    if (u < 0 || v < 0 || u + v > 1 || t < t_min) return {};
    const glm::dvec3 n = (1 - u - v) * facet.normal[0] + u * facet.normal[1] + v * facet.normal[2];
    return Crossing{t, glm::normalize(n)};
}

Crossing first_crossing(const Mesh& mesh, const Beam& beam) {
    Crossing nearest{kInfinity, glm::dvec3(0)};
    for (const glm::uvec3& t : mesh.triangles) {
        const auto crossing = cross_triangle(beam, MeshTriangle(mesh, t), 1e-5);
        if (crossing && crossing->t < nearest.t) nearest = *crossing;
    }
    REQUIRE(nearest.t < kInfinity);
    return nearest;
}

// Vector form of Snell's law; `index` is that of the solid against its surroundings.
glm::dvec3 refract(const glm::dvec3& direction, const glm::dvec3& outward, double index) {
    const bool entering = glm::dot(direction, outward) < 0;
    const glm::dvec3 n = entering ? outward : -outward;
    const double eta = entering ? 1 / index : index;
    const double cos_in = -glm::dot(direction, n);
    const double sin2_out = eta * eta * (1 - cos_in * cos_in);
    REQUIRE(sin2_out < 1);
    return eta * direction + (eta * cos_in - std::sqrt(1 - sin2_out)) * n;
}

Beam through(const Mesh& mesh, Beam beam, double index) {
    for (int surface = 0; surface < 2; ++surface) {
        const Crossing crossing = first_crossing(mesh, beam);
        beam.origin += crossing.t * beam.direction;
        beam.direction = refract(beam.direction, crossing.normal, index);
    }
    return beam;
}

}  // namespace

// Exact crossing of the axis at R h / sin(2(i - r)) from the centre, i = asin h, r = asin(h/n);
// values in R computed from that formula (textbook ball lens), n = 1.52.
TEST_CASE("a made ball brings rays to the axis where an exact ball does") {
    constexpr double kRadius = 0.05;
    const std::pair<double, double> table[] = {
        {0.01, 1.4615}, {0.1, 1.4576}, {0.3, 1.4255}, {0.5, 1.3588}, {0.7, 1.2514}};
    const GlassObject ball = somewhere(sample_glass(GlassForm::kBall, 0.1F, 0.1F, 0));
    const Mesh mesh = glass_mesh(ball);
    const glm::dvec3 pole =
        glm::normalize(glm::dvec3(bounds_of(mesh).centre()) - glm::dvec3(ball.position));
    const glm::dvec3 centre = glm::dvec3(ball.position) + kRadius * pole;

    for (const glm::dvec3& along : {pole,
                                    glm::normalize(glm::cross(pole, glm::dvec3(0, 0, 1))),
                                    glm::normalize(glm::dvec3(0.3, -0.8, 0.5))}) {
        const glm::dvec3 aside = glm::normalize(glm::cross(along, glm::dvec3(0.2, 0.3, -0.9)));
        for (const auto& [h, crossing] : table) {
            CAPTURE(h);
            const Beam out =
                through(mesh, {centre - 3 * kRadius * along + h * kRadius * aside, along}, 1.52);
            const double height = glm::dot(out.origin - centre, aside);
            const double slope = glm::dot(out.direction, aside) / glm::dot(out.direction, along);
            const double found = glm::dot(out.origin - centre, along) - height / slope;
            // Facets lie up to a ten-thousandth of the radius inside the ball at either side, and
            // the table's last digit is half of that; twice their sum.
            CHECK(found / kRadius == doctest::Approx(crossing).epsilon(0.0005));
            // No turn out of the plane of incidence beyond 0.1 mrad.
            CHECK(std::abs(glm::dot(out.direction, glm::cross(along, aside))) < 1e-4);
        }
    }
}

// s = t sin i (1 - cos i / sqrt(n² - sin² i)), any optics textbook; t = 10 mm, n = 1.52.
TEST_CASE("a pane shifts rays aside as a plane-parallel plate does and keeps their direction") {
    GlassObject pane = sample_glass(GlassForm::kPane, 1.0F, 0, 0.01F);
    pane.width = 1.0F;
    const Mesh mesh = glass_mesh(pane);
    const std::pair<double, double> table[] = {
        {10, 0.6040e-3}, {30, 1.9834e-3}, {45, 3.3550e-3}, {60, 5.1938e-3}, {75, 7.5291e-3}};
    for (const auto& [degrees, shift] : table) {
        CAPTURE(degrees);
        const double i = radians_from_degrees(degrees);
        const glm::dvec3 direction(std::sin(i), 0, std::cos(i));
        const glm::dvec3 entry(-0.05, 0.4, -0.005);
        const Beam out = through(mesh, {entry - 0.1 * direction, direction}, 1.52);
        CHECK(glm::length(glm::cross(out.origin - entry, direction)) ==
              doctest::Approx(shift).epsilon(1e-4));  // the table's last digit
        CHECK(angle_between(out.direction, direction) < 1e-7);
    }
}

// A thin wall bends light little: outer and inner surface are concentric, so a ray aimed at the
// axis of a plain jar passes the wall straight.
TEST_CASE("a ray towards the axis passes a plain jar's wall unbent, and a rib's flank bends it") {
    const GlassObject plain = sample_glass(GlassForm::kJar, 0.26F, 0.12F, 0.003F);
    const GlassObject ribbed = with_ribs(plain, 24, 0.0015F);
    const double flank = kPi / (2 * 24);  // a quarter of a rib from the crest: steepest
    const glm::dvec3 outwards(std::cos(flank), 0, std::sin(flank));
    const Beam beam{0.2 * outwards + glm::dvec3(0, 0.1303, 0), -outwards};

    CHECK(angle_between(through(glass_mesh(plain), beam, 1.52).direction, beam.direction) < 1e-4);

    // Outside, the slope is tan b = depth N / 2 / R at the mean radius R. The inner wall bends the
    // ray again. Both by Snell's law in the plane of the section.
    const double radius = 0.06 - 0.5 * 0.0015;
    const double inner = 0.06 - 0.0015 - 0.003;
    const double b = std::atan(0.5 * 0.0015 * 24 / radius);
    const double inside = b - std::asin(std::sin(b) / 1.52);  // turned from the radius
    // Law of sines in the triangle axis, entry, inner crossing.
    const double at_inner = std::asin(std::sin(inside) * radius / inner);
    const double axis_angle = at_inner - inside;
    const double leaving = std::asin(1.52 * std::sin(at_inner)) - axis_angle;
    const Beam out = through(glass_mesh(ribbed), beam, 1.52);
    // 0.5 mrad of the normals, times n - 1, over a turn of 0.16 rad.
    CHECK(angle_between(out.direction, beam.direction) == doctest::Approx(leaving).epsilon(0.003));
}

}  // namespace dapple
