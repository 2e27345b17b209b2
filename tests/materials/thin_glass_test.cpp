#include "materials/thin_glass.h"

#include <doctest/doctest.h>

#include "materials/all_materials.h"
#include "materials/glass_catalogue.h"

namespace dapple {

namespace {

float cosine(double angle_deg) {
    return static_cast<float>(std::cos(radians_from_degrees(angle_deg)));
}

}  // namespace

// Duffie and Beckman, Solar Engineering of Thermal Processes, chapter 5 (each polarisation
// separately, all internal reflections); digits recomputed from its formulas, 5 places.
TEST_CASE("a clear pane of 1.52 passes and mirrors the published shares at every angle") {
    const ThinGlass pane{Spectrum(1.52F), Spectrum(0.0F)};
    const double rows[][3] = {{0, 0.91832, 0.08168},
                              {20, 0.91790, 0.08210},
                              {30, 0.91596, 0.08404},
                              {45, 0.90253, 0.09747},
                              {50, 0.89116, 0.10884},
                              {60, 0.84347, 0.15653},
                              {70, 0.72471, 0.27529},
                              {75, 0.61481, 0.38519},
                              {80, 0.45604, 0.54396},
                              {85, 0.24565, 0.75435}};
    for (const auto& [angle, passed, mirrored_share] : rows) {
        const PaneShares shares = pane_shares(pane, cosine(angle));
        CAPTURE(angle);
        CHECK(std::abs(shares.transmitted[0] - passed) < 1e-5);
        CHECK(std::abs(shares.reflected[0] - mirrored_share) < 1e-5);
    }
}

TEST_CASE("6 mm of window glass at 550 nm pass and mirror the published shares") {
    const auto n = static_cast<float>(refractive_index(GlassType::kSodaLime, 550));
    const float alpha = window_absorption_curve(Tint::kClear).at(550);
    const ThinGlass pane{Spectrum(n), Spectrum(alpha * 0.006F)};
    const double rows[][3] = {
        {0, 0.8897, 0.0806}, {30, 0.8859, 0.0828}, {60, 0.8112, 0.1530}, {75, 0.5872, 0.3752}};
    for (const auto& [angle, passed, mirrored_share] : rows) {
        const PaneShares shares = pane_shares(pane, cosine(angle));
        CAPTURE(angle);
        CHECK(std::abs(shares.transmitted[0] - passed) < 1e-4);  // the digits printed
        CHECK(std::abs(shares.reflected[0] - mirrored_share) < 1e-4);
    }
}

TEST_CASE("connections pass a pane with its transmittance, and the rest is mirrored") {
    const MaterialFamily& family = material_family();
    for (size_t i = 0; i < family.tests().size(); ++i) {
        if (family.tests()[i].material.kind != MaterialKind::kThinGlass) continue;
        const Bsdf bsdf = family.bsdf(i, 0);
        CHECK(is_delta(bsdf));
        for (const Direction& wo : test_directions()) {
            const PaneShares shares = pane_shares(std::get<ThinGlass>(bsdf.kind), std::abs(wo.z));
            CHECK(straight_through(bsdf, wo)[3] == doctest::Approx(shares.transmitted[3]));
            BsdfSample s;
            REQUIRE(sample(bsdf, wo, Vec3(0.5F), Carrying::kRadiance, s));
            CHECK(s.wi == mirrored(wo));
            CHECK(s.pdf == doctest::Approx(1 - straight_through_probability(bsdf, wo)));
            CHECK(s.weight[3] * s.pdf == doctest::Approx(shares.reflected[3]));
        }
    }
}

}  // namespace dapple
