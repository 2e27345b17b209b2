#include "materials/fresnel.h"

#include <doctest/doctest.h>

#include "materials/all_materials.h"
#include "materials/smooth_glass.h"

namespace dapple {

namespace {

double degrees(double radians) {
    return degrees_from_radians(radians);
}

float cos_deg(double angle) {
    return static_cast<float>(std::cos(radians_from_degrees(angle)));
}

}  // namespace

// Hecht, Optics; Born and Wolf, Principles of Optics; the digits recomputed from their formulas.
TEST_CASE(
    "reflectance at normal incidence, Brewster's angle and the critical angle are Fresnel's") {
    struct Row {
        float n;
        double at_normal, brewster, critical;
    };
    for (const Row& row : {Row{1.333F, 0.02037, 53.123, 48.607},
                           Row{1.458F, 0.03472, 55.555, 43.304},
                           Row{1.491F, 0.03885, 56.151, 42.120},
                           Row{1.5F, 0.04000, 56.310, 41.810},
                           Row{1.5168F, 0.04216, 56.604, 41.245},
                           Row{1.52F, 0.04258, 56.659, 41.140},
                           Row{1.6F, 0.05325, 57.995, 38.682},
                           Row{1.7F, 0.06722, 59.534, 36.032}}) {
        CAPTURE(row.n);
        CHECK(std::abs(fresnel_dielectric(1.0F, row.n) - row.at_normal) < 1e-5);
        // p vanishes at Brewster's angle and nowhere beside it.
        CHECK(fresnel_polarised(cos_deg(row.brewster), row.n).p < 1e-9F);
        CHECK(fresnel_polarised(cos_deg(row.brewster - 0.2), row.n).p > 1e-7F);
        CHECK(fresnel_polarised(cos_deg(row.brewster + 0.2), row.n).p > 1e-7F);
        // From inside, reflection is total just beyond the critical angle but not just before it.
        CHECK(fresnel_dielectric(cos_deg(row.critical + 0.001), 1 / row.n) == 1.0F);
        CHECK(fresnel_dielectric(cos_deg(row.critical - 0.002), 1 / row.n) < 0.98F);
    }
}

TEST_CASE("n = 1.61 at 75 degrees reflects 0.27098 of unpolarised light") {
    CHECK(std::abs(fresnel_dielectric(cos_deg(75), 1.61F) - 0.27098) < 1e-5);
}

TEST_CASE("diffuse light is reflected by the published shares, outside and inside") {
    struct Row {
        double n, outside, inside;
    };
    for (const Row& row : {Row{1.333, 0.06641, 0.47459},
                           Row{1.5, 0.09178, 0.59635},
                           Row{1.52, 0.09471, 0.60817},
                           Row{1.6, 0.10625, 0.65088}}) {
        CHECK(std::abs(diffuse_fresnel(row.n) - row.outside) < 1e-5);
        CHECK(std::abs(diffuse_fresnel(1 / row.n) - row.inside) < 1e-5);
    }
}

TEST_CASE("a ray bends into glass of 1.52 by Snell's law and back out to where it came from") {
    const double angles[][2] = {
        {10, 6.560}, {30, 19.205}, {45, 27.723}, {60, 34.733}, {75, 39.455}, {89, 41.132}};
    SmoothGlass glass;
    glass.eta = Spectrum(1.52F);
    for (const auto& [outside, inside] : angles) {
        const Direction wo = direction_at(outside, 40);
        BsdfSample in;
        REQUIRE(sample(glass, wo, Vec3(0, 0, 0.9999F), Carrying::kFlux, in));
        REQUIRE(in.transmitted);
        const double angle = degrees(std::atan2(std::hypot(in.wi.x, in.wi.y), -in.wi.z));
        CHECK(std::abs(angle - inside) < 1e-3);                    // the digits printed
        CHECK(in.wi.x * wo.y == doctest::Approx(in.wi.y * wo.x));  // stays in its plane
        BsdfSample out;
        REQUIRE(sample(glass, in.wi, Vec3(0, 0, 0.9999F), Carrying::kFlux, out));
        CHECK(glm::length(out.wi - wo) < 1e-5);
    }
}

TEST_CASE("a prism of 45, 90, 45 degrees reflects totally in glass and not in water") {
    CHECK(fresnel_dielectric(cos_deg(45), 1 / 1.52F) == 1.0F);
    CHECK(fresnel_dielectric(cos_deg(45), 1 / 1.333F) < 0.2F);
}

TEST_CASE("dispersion gives the hero the light of eight wavelengths, once") {
    SmoothGlass glass;
    for (int j = 0; j < kSpectrumSize; ++j) glass.eta[j] = 1.53F - 0.002F * static_cast<float>(j);
    glass.dispersive = true;
    glass.hero = 4;
    const Direction wo = direction_at(40, 0);
    BsdfSample s;
    REQUIRE(sample(glass, wo, Vec3(0, 0, 0.5F), Carrying::kFlux, s));
    CHECK(s.dispersed);
    CHECK(s.weight[4] == 8.0F);
    CHECK(s.weight.sum() == 8.0F);
    CHECK(std::hypot(s.wi.x, s.wi.y) ==
          doctest::Approx(std::sin(radians_from_degrees(40)) / glass.eta[4]));
    glass.monochromatic = true;
    REQUIRE(sample(glass, wo, Vec3(0, 0, 0.5F), Carrying::kFlux, s));
    CHECK(s.weight.sum() == 1.0F);
    // Mirrored light keeps all wavelengths, each with its own Fresnel share.
    REQUIRE(sample(glass, wo, Vec3(0, 0, 0.0F), Carrying::kFlux, s));
    CHECK_FALSE(s.dispersed);
    CHECK(s.weight[0] * fresnel_dielectric(wo.z, glass.eta[4]) ==
          doctest::Approx(fresnel_dielectric(wo.z, glass.eta[0])));
}

TEST_CASE("metals reflect their colour at normal incidence and everything at grazing") {
    Spectrum colour;
    for (int j = 0; j < kSpectrumSize; ++j) colour[j] = 0.1F * static_cast<float>(j);
    for (int j = 0; j < kSpectrumSize; ++j) {
        CHECK(fresnel_conductor(1.0F, colour)[j] == colour[j]);
        CHECK(fresnel_conductor(0.0F, colour)[j] == doctest::Approx(1.0));
    }
}

}  // namespace dapple
