// One frosted face of made glass.
#include "scene/written_set.h"

using namespace dapple;

namespace {

const std::string kFrostedSet = kRoom + kCamera + kFixture + "[[glass]]\nposition = [0, 0, 0]\n";

const Material& material_of(const Scene& scene, MaterialId id) {
    return scene.materials.at(static_cast<size_t>(id));
}

}  // namespace

TEST_CASE("a frosted face is rough and bounds its glass, whose other face stays smooth") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        kFrostedSet + "form = \"jar\"\nfrosted = \"inside\"\nroughness = 0.5\ntint = \"amber\"\n");
    const GlassObject& jar = scene.glasses[0];
    CHECK(jar.outer_face == kNoMaterial);
    const Material& frost = material_of(scene, jar.inner_face);
    CHECK(frost.medium == jar.material);
    CHECK(frost.roughness == 0.5F);
    CHECK(frost.tint == Tint::kAmber);
    CHECK(material_of(scene, jar.material).roughness == 0);
    CHECK(material_of(scene, jar.material).medium == kNoMaterial);
    const Scene pane = set.build_clean(kFrostedSet + "form = \"pane\"\nfrosted = \"outside\"\n");
    CHECK(pane.glasses[0].inner_face == kNoMaterial);
    CHECK(material_of(pane, pane.glasses[0].outer_face).roughness == doctest::Approx(0.35));
}

TEST_CASE("each mistake in frosted is reported in one line") {
    WrittenSet set;
    set.file("cube.obj", cube_obj());
    const auto line = [&](const std::string& keys) {
        set.build(kFrostedSet + keys);
        REQUIRE(set.lines().size() == 1);
        return set.lines()[0].substr(set.lines()[0].find("glass 1"));
    };
    CHECK(line("form = \"ball\"\nfrosted = \"inside\"\n") ==
          "glass 1: frosted: is \"inside\"; a ball and a rod are solid and have only an outside");
    CHECK(line("form = \"jar\"\nfrosted = \"inward\"\n").find("must be one of outside, inside") !=
          std::string::npos);
    CHECK(line("model = \"cube.obj\"\nfrosted = \"outside\"\n") ==
          "glass 1: frosted: belongs to made forms; roughness alone frosts a model all over");
    CHECK(line("form = \"jar\"\nfrosted = \"inside\"\nroughness = 0\n") ==
          "glass 1: roughness: is 0; must be above 0, up to 1");
}
