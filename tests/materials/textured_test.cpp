// Textures on materials: where they are read, and what they change.
#include <doctest/doctest.h>

#include "materials/all_materials.h"
#include "materials/texture_lookup.h"

namespace dapple {

namespace {

// 2 × 2, rows from the top: red green / blue white.
Texture four_colours(bool srgb) {
    return {"four", 2, 2, 3, srgb, {255, 0, 0, 0, 255, 0, 0, 0, 255, 255, 255, 255}};
}

bool near(const Rgb& a, const Rgb& b) {
    return glm::length(a - b) < 1e-5F;
}

}  // namespace

TEST_CASE("v points up and the picture repeats") {
    const Texture t = four_colours(true);
    CHECK(near(texture_colour(t, Vec2(0.25F, 0.75F)), Rgb(1, 0, 0)));
    CHECK(near(texture_colour(t, Vec2(0.75F, 0.75F)), Rgb(0, 1, 0)));
    CHECK(near(texture_colour(t, Vec2(0.25F, 0.25F)), Rgb(0, 0, 1)));
    CHECK(near(texture_colour(t, Vec2(-2.75F, 3.25F)), Rgb(0, 0, 1)));
}

TEST_CASE("between texel centres colours are mixed, over the edge too") {
    const Texture t = four_colours(true);
    CHECK(near(texture_colour(t, Vec2(0.5F, 0.75F)), Rgb(0.5F, 0.5F, 0)));
    CHECK(near(texture_colour(t, Vec2(0.0F, 0.75F)), Rgb(0.5F, 0.5F, 0)));
    CHECK(near(texture_colour(t, Vec2(0.5F, 0.5F)), Rgb(0.5F, 0.5F, 0.5F)));
}

TEST_CASE("sRGB bytes are decoded, plain bytes are not") {
    // IEC 61966-2-1: byte 188 is 0.50289, byte 5 is on the straight part, 5 / 255 / 12.92.
    Texture grey{"grey", 1, 1, 1, true, {188}};
    CHECK(texture_value(grey, Vec2(0.3F)) == doctest::Approx(0.50289).epsilon(1e-4));
    grey.texels = {5};
    CHECK(texture_value(grey, Vec2(0.3F)) == doctest::Approx(5 / 255.0 / 12.92));
    grey.srgb = false;
    CHECK(texture_value(grey, Vec2(0.3F)) == doctest::Approx(5 / 255.0));
}

TEST_CASE("a measured reflectance replaces the colour at every wavelength") {
    Scene scene;
    Material skin;
    skin.measured = MeasuredReflectance::kDarkSkin;
    scene.materials = {skin};
    const SceneMaterials prepared(scene);
    const Wavelengths wavelengths = make_pass_wavelengths(1, 0);
    const PassMaterials pass(prepared, wavelengths);
    const Spectrum wanted = measured_reflectance(skin.measured).at(wavelengths);
    Bsdf bsdf;
    make_bsdf(pass, 0, {}, {}, 0, bsdf);
    for (int j = 0; j < kSpectrumSize; ++j) CHECK(albedo(bsdf)[j] == wanted[j]);
}

TEST_CASE("the colours of vertices multiply the colour of a material that has them") {
    Scene scene;
    Material plain;
    plain.reflectance = Rgb(0.5F);
    Material scanned = plain;
    scanned.vertex_colours = true;
    scene.materials = {plain, scanned};
    const SceneMaterials prepared(scene);
    const PassMaterials pass(prepared, make_pass_wavelengths(1, 0));
    const ColourSpot spot{Vec2(0), Rgb(0.4F)};
    Bsdf bsdf;
    make_bsdf(pass, 0, spot, {}, 0, bsdf);
    CHECK(albedo(bsdf)[2] == doctest::Approx(0.5));
    make_bsdf(pass, 1, spot, {}, 0, bsdf);
    CHECK(albedo(bsdf)[2] == doctest::Approx(0.2));
    make_bsdf(pass, 1, {Vec2(0), Rgb(0.4F, 0.1F, 0.8F)}, {}, 0, bsdf);
    const Spectrum wanted = pass.basis().lift(Rgb(0.2F, 0.05F, 0.4F));
    for (int j = 0; j < kSpectrumSize; ++j) CHECK(albedo(bsdf)[j] == doctest::Approx(wanted[j]));
}

TEST_CASE("a texture multiplies the colour, and another cuts holes") {
    Scene scene;
    scene.textures = {{"half", 1, 1, 1, false, {51}}, {"holes", 2, 1, 1, false, {0, 255}}};
    Material leaf;
    leaf.reflectance = Rgb(0.5F);
    leaf.reflectance_texture = 0;
    leaf.opacity_texture = 1;
    scene.materials = {leaf};
    const SceneMaterials prepared(scene);
    const PassMaterials pass(prepared, make_pass_wavelengths(1, 0));
    const Direction wo = direction_at(30, 0);
    Bsdf there;
    make_bsdf(pass, 0, {Vec2(0.75F, 0.5F)}, {}, 0, there);
    CHECK(albedo(there)[2] == doctest::Approx(0.1));
    CHECK(straight_through_probability(there, wo) == 0.0F);
    Bsdf hole;
    make_bsdf(pass, 0, {Vec2(0.25F, 0.5F)}, {}, 0, hole);
    CHECK(straight_through(hole, wo)[2] == 1.0F);
    CHECK(straight_through_probability(hole, wo) == 1.0F);
    BsdfSample s;
    CHECK_FALSE(sample(hole, wo, Vec3(0.5F), Carrying::kFlux, s));
    Bsdf edge;
    make_bsdf(pass, 0, {Vec2(0.5F, 0.5F)}, {}, 0, edge);
    CHECK(straight_through(edge, wo)[2] == doctest::Approx(0.5));
    CHECK(eval(edge, wo, wo, Carrying::kFlux)[2] == doctest::Approx(0.5 * 0.1 / kPi));
}

}  // namespace dapple
