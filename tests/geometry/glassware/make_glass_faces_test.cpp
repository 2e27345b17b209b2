// Which triangles of made glass are its outside and which its inside: either may be frosted.
#include <doctest/doctest.h>

#include "geometry/glassware/glass_samples.h"

namespace dapple {

namespace {

constexpr MaterialId kFrost = 7;

struct FaceAreas {
    double plain = 0;  // m²
    double frosted = 0;
};

// Areas by material. `is_right` returns whether a triangle may be frosted or plain as it is.
template <typename Rule>
FaceAreas areas(const Mesh& mesh, const Rule& is_right) {
    FaceAreas sum;
    int wrong = 0;
    for (size_t i = 0; i < mesh.triangles.size(); ++i) {
        const glm::uvec3& t = mesh.triangles[i];
        const Point& a = mesh.positions[t.x];
        const Point& b = mesh.positions[t.y];
        const Point& c = mesh.positions[t.z];
        const Vec3 cross = glm::cross(b - a, c - a);
        const bool frosted = mesh.materials[i] == kFrost;
        (frosted ? sum.frosted : sum.plain) += 0.5 * static_cast<double>(glm::length(cross));
        wrong += static_cast<int>(!is_right((a + b + c) / 3.0F, glm::normalize(cross), frosted));
    }
    CHECK(wrong == 0);
    return sum;
}

}  // namespace

TEST_CASE("a jar frosted inside is frosted on all of its cavity and nowhere else") {
    GlassObject jar = plain(sample_glass(GlassForm::kJar, 0.26F, 0.12F, 0.003F));
    jar.inner_face = kFrost;
    const Mesh mesh = make_glass(jar, Scene()).front();
    const FaceAreas sum = areas(mesh, [](const Point& p, const Normal& n, bool frosted) {
        // Below the shoulder, the outside of the wall faces away from the axis, the cavity towards
        // it.
        const float out = glm::dot(glm::normalize(Vec3(p.x, 0, p.z)), n);
        const bool upright = p.y > 0.05F && p.y < 0.15F && std::abs(out) > 0.9F;
        return !upright || frosted == (out < 0);
    });
    CHECK(sum.frosted > 0.8 * sum.plain);
    CHECK(sum.frosted < sum.plain);
}

TEST_CASE("a pane frosted outside is frosted on its front, one frosted inside on its back") {
    GlassObject pane = sample_glass(GlassForm::kPane, 0.3F, 0, 0.004F);
    pane.width = 0.2F;
    pane.inner_face = kFrost;
    const FaceAreas back = areas(
        make_glass(pane, Scene()).front(),
        [](const Point&, const Normal& n, bool frosted) { return frosted == (n.z < -0.99F); });
    CHECK(back.frosted == doctest::Approx(0.3 * 0.2).epsilon(1e-5));
    pane.inner_face = kNoMaterial;
    pane.outer_face = kFrost;
    areas(make_glass(pane, Scene()).front(), [](const Point&, const Normal& n, bool frosted) {
        return frosted == (n.z > -0.99F);  // and on its edges
    });
}

TEST_CASE("glass with one kind of face has one material, and a frosted rod is frosted all over") {
    GlassObject rod = plain(sample_glass(GlassForm::kRod, 0.3F, 0.02F, 0));
    const Mesh plain_rod = make_glass(rod, Scene()).front();
    for (const MaterialId id : plain_rod.materials) REQUIRE(id == kSampleGlass);
    rod.outer_face = kFrost;
    const Mesh frosted_rod = make_glass(rod, Scene()).front();
    for (const MaterialId id : frosted_rod.materials) REQUIRE(id == kFrost);
}

}  // namespace dapple
