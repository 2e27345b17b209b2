// Light in the reverse direction is scattered equally.
#include <doctest/doctest.h>

#include "materials/all_materials.h"

namespace dapple {

namespace {

// Pairs of directions as walks use them: the second one is drawn, so that narrow lobes are hit.
template <typename Check>
void for_drawn_pairs(const Check& check) {
    RandomStream random(21, 0, 0, Purpose::kTest);
    const MaterialFamily& family = material_family();
    for (size_t i = 0; i < family.tests().size(); ++i) {
        const Bsdf bsdf = family.bsdf(i, 3);
        for (int n = 0; n < 400; ++n) {
            const Direction wo = sample_sphere(random.next(), random.next());
            BsdfSample s;
            if (!sample(bsdf, wo, next_vec3(random), Carrying::kRadiance, s) || s.delta) continue;
            CAPTURE(family.tests()[i].name);
            CAPTURE(wo.z);
            CAPTURE(s.wi.z);
            check(family, i, bsdf, wo, s.wi);
        }
    }
}

// Half vectors of 24-bit floats, squared in narrow lobes: relative 1e-3 at alpha 0.01, less above.
constexpr double kRounding = 2e-3;

}  // namespace

TEST_CASE("radiance over index squared is scattered alike both ways") {
    int pairs = 0;
    for_drawn_pairs([&](const MaterialFamily& family,
                        size_t i,
                        const Bsdf& bsdf,
                        const Direction& wo,
                        const Direction& wi) {
        const Spectrum there = eval(bsdf, wo, wi, Carrying::kRadiance);
        const Spectrum back = eval(bsdf, wi, wo, Carrying::kRadiance);
        for (int j = 0; j < kSpectrumSize; ++j) {
            const double no = family.index_along(i, wo, j);
            const double ni = family.index_along(i, wi, j);
            REQUIRE(there[j] / (no * no) ==
                    doctest::Approx(back[j] / (ni * ni)).epsilon(kRounding));
        }
        ++pairs;
    });
    CHECK(pairs > 5000);
}

TEST_CASE("flux one way is radiance the other way") {
    for_drawn_pairs([&](const MaterialFamily&,
                        size_t,
                        const Bsdf& bsdf,
                        const Direction& wo,
                        const Direction& wi) {
        const Spectrum flux = eval(bsdf, wo, wi, Carrying::kFlux);
        const Spectrum radiance = eval(bsdf, wi, wo, Carrying::kRadiance);
        for (int j = 0; j < kSpectrumSize; ++j) {
            REQUIRE(flux[j] == doctest::Approx(radiance[j]).epsilon(kRounding));
        }
    });
}

TEST_CASE("a refracted direction carries radiance by the square of the index ratio") {
    RandomStream random(22, 0, 0, Purpose::kTest);
    const MaterialFamily& family = material_family();
    int refractions = 0;
    for (size_t i = 0; i < family.tests().size(); ++i) {
        const Bsdf bsdf = family.bsdf(i, 6);
        for (int n = 0; n < 200; ++n) {
            const Direction wo = sample_sphere(random.next(), random.next());
            const Vec3 u = next_vec3(random);
            BsdfSample flux;
            BsdfSample radiance;
            if (!sample(bsdf, wo, u, Carrying::kFlux, flux)) continue;
            REQUIRE(sample(bsdf, wo, u, Carrying::kRadiance, radiance));
            CAPTURE(family.tests()[i].name);
            const double ratio =
                family.index_along(i, wo, 6) / family.index_along(i, radiance.wi, 6);
            refractions += ratio != 1;
            REQUIRE(radiance.weight[6] ==
                    doctest::Approx(flux.weight[6] * ratio * ratio).epsilon(1e-5));
        }
    }
    CHECK(refractions > 500);
}

TEST_CASE("both sides of a sheet, a metal and a wall are the same") {
    for_drawn_pairs([&](const MaterialFamily& family,
                        size_t i,
                        const Bsdf& bsdf,
                        const Direction& wo,
                        const Direction& wi) {
        if (family.tests()[i].material.kind == MaterialKind::kGlass) return;
        const Spectrum here = eval(bsdf, wo, wi, Carrying::kFlux);
        const Spectrum beyond = eval(bsdf, flipped(wo), flipped(wi), Carrying::kFlux);
        for (int j = 0; j < kSpectrumSize; ++j) REQUIRE(here[j] == doctest::Approx(beyond[j]));
    });
}

}  // namespace dapple
