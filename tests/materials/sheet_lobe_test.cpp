#include "materials/sheet_lobe.h"

#include <doctest/doctest.h>

#include "materials/all_materials.h"
#include "scene/boards_and_figures/cloths.h"

namespace dapple {

namespace {

float spread(double degrees) {
    return static_cast<float>(radians_from_degrees(degrees));
}

// ∫ f(wi) cosθi dω by rings around the straight direction, within the lobe's reach.
double lobe_integral(const SheetLobe& lobe, const Direction& wo) {
    constexpr int kRings = 400;
    constexpr int kSegments = 360;
    const double k = std::max(static_cast<double>(lobe.concentration), 1e-6);
    const double far = std::acos(std::max(-1.0, 1 - 20 / k));
    const Frame straight(mirrored(wo));
    double sum = 0;
    for (int a = 0; a < kRings; ++a) {
        const auto angle = static_cast<float>((a + 0.5) / kRings * far);
        for (int b = 0; b < kSegments; ++b) {
            const auto phi = static_cast<float>((b + 0.5) / kSegments * 2 * kPi);
            const Direction wi =
                straight.to_world(direction_from_angles(std::cos(angle), std::sin(angle), phi));
            if (wi.z <= 0) continue;
            sum += static_cast<double>(eval(lobe, wo, wi)) * wi.z * std::sin(angle);
        }
    }
    return sum * (far / kRings) * (2 * kPi / kSegments);
}

}  // namespace

TEST_CASE("the forward lobe transmits everything at every angle of incidence") {
    for (const double degrees : {1.0, 5.0, 20.0, 40.0, 58.0, 75.0}) {
        const SheetLobe lobe = make_sheet_lobe(spread(degrees));
        for (const double angle : {0.0, 17.0, 33.0, 51.0, 68.0, 80.0, 87.0, 89.5}) {
            CAPTURE(degrees);
            CAPTURE(angle);
            // The table is interpolated between 65 entries; the rings leave 1e-4.
            CHECK(std::abs(lobe_integral(lobe, direction_at(angle, 25)) - 1) < 1e-3);
        }
    }
}

TEST_CASE("intensity under light along the normal is halved at the spread") {
    const Direction up(0, 0, 1);
    std::vector<double> spreads{1.0, 5.0, 20.0, 40.0, 58.0};
    for (const Cloth& cloth : kCloths) {
        if (cloth.spread_deg < 60) spreads.push_back(cloth.spread_deg);
    }
    for (const double degrees : spreads) {
        CAPTURE(degrees);
        const SheetLobe lobe = make_sheet_lobe(spread(degrees));
        const Direction at = direction_at(degrees, 0);
        // The search uses a coarser rule than the final table.
        CHECK(std::abs(eval(lobe, up, at) * at.z / eval(lobe, up, up) - 0.5) < 2e-3);
    }
}

TEST_CASE("60 degrees and more are a Lambertian lobe, and just below is nearly one") {
    for (const double degrees : {59.8, 60.0, 85.0}) {
        const SheetLobe lobe = make_sheet_lobe(spread(degrees));
        for (const Direction& w : {direction_at(10, 0), direction_at(70, 120)}) {
            // 0.2 degrees less spread changes intensity by 0.6 % at 60 degrees, and similarly here.
            CHECK(std::abs(eval(lobe, direction_at(35, 60), w) * kPi - 1) < 0.03);
        }
    }
}

TEST_CASE("draws of the forward lobe weigh little more than the average") {
    RandomStream random(41, 0, 0, Purpose::kTest);
    for (const double degrees : {1.0, 20.0, 45.0, 58.0, 60.0}) {
        const SheetLobe lobe = make_sheet_lobe(spread(degrees));
        for (const double angle : {0.0, 50.0, 85.0, 89.9}) {
            const Direction wo = direction_at(angle, 0);
            float heaviest = 0;
            for (int i = 0; i < 2000; ++i) {
                const Direction wi = sample(lobe, wo, next_vec3(random));
                heaviest = std::max(heaviest, eval(lobe, wo, wi) * wi.z / pdf(lobe, wo, wi));
            }
            CAPTURE(degrees);
            CAPTURE(angle);
            CHECK(heaviest < 4);  // worst at grazing, where half of the lobe is mirrored up
        }
    }
}

TEST_CASE("a narrow spread passes straight on") {
    Scene scene;
    Material gauze;
    gauze.kind = MaterialKind::kSheet;
    gauze.reflectance = Rgb(0.2F);
    gauze.transmission = 0.6F;
    gauze.spread = spread(0.1);
    scene.materials = {gauze};
    const SceneMaterials prepared(scene);
    const PassMaterials pass(prepared, make_pass_wavelengths(1, 0));
    Bsdf bsdf;
    make_bsdf(pass, 0, {}, {}, 0, bsdf);
    CHECK(straight_through(bsdf, direction_at(50, 0))[0] == doctest::Approx(0.6));
}

}  // namespace dapple
