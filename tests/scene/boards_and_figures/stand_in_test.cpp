// [[stand_in]]: pose, skin, hair, gloss and dress.
#include "base/units.h"
#include "scene/written_set.h"

using namespace dapple;

namespace {

const std::string kStandInSet =
    kRoom + kCamera + kFixture + "[[stand_in]]\nposition = [0, 0, -1]\n";

const Material& material_of(const Scene& scene, MaterialId id) {
    return scene.materials.at(static_cast<size_t>(id));
}

}  // namespace

TEST_CASE("a stand-in by default stands, is 1.70 m high, and has dark hair and no dress") {
    WrittenSet set;
    const Scene scene = set.build_clean(kStandInSet);
    REQUIRE(scene.stand_ins.size() == 1);
    const StandIn& figure = scene.stand_ins[0];
    CHECK(figure.pose == Pose::kStanding);
    CHECK(figure.position == Point(0, 0, -1));
    CHECK(figure.height == doctest::Approx(1.70));
    CHECK(material_of(scene, figure.skin).measured == MeasuredReflectance::kMediumSkin);
    CHECK(material_of(scene, figure.hair).measured == MeasuredReflectance::kDarkHair);
    CHECK(figure.dress == kNoMaterial);
    CHECK(set.notes().empty());
}

TEST_CASE("skin is a measured one by name or a colour, with a coat of gloss") {
    WrittenSet set;
    const auto skin = [&](const std::string& keys) {
        const Scene scene = set.build_clean(kStandInSet + keys);
        return material_of(scene, scene.stand_ins[0].skin);
    };
    CHECK(skin("skin = \"dark\"\n").measured == MeasuredReflectance::kDarkSkin);
    CHECK(skin("skin = \"dark\"\n").kind == MaterialKind::kLambertian);
    const Material own = skin("skin = [0.5, 0.25, 0.125]\ngloss = 0.5\n");
    CHECK(own.measured == MeasuredReflectance::kNone);
    CHECK(own.reflectance == Rgb(0.5F, 0.25F, 0.125F));
    CHECK(own.kind == MaterialKind::kCoated);
    CHECK(own.coat == 0.5F);
}

TEST_CASE("hair can be fair or none, and a dress is a sheet with the given keys") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        kStandInSet +
        "hair = \"none\"\nname = \"her\"\nturn_deg = 90\npose = \"arm_raised\"\n"
        "dress = { transmission = 0.5, spread_deg = 30, direct = 0.25, reflectance = 0.1 }\n"
        "[[stand_in]]\nposition = [1, 0, 0]\nhair = \"fair\"\n"
        "[[region]]\nname = \"dress\"\nsurface = \"her dress\"\n");
    const StandIn& figure = scene.stand_ins[0];
    CHECK(figure.hair == kNoMaterial);
    CHECK(figure.pose == Pose::kArmRaised);
    CHECK(figure.turn == doctest::Approx(radians_from_degrees(90)));
    const Material& dress = material_of(scene, figure.dress);
    CHECK(dress.kind == MaterialKind::kSheet);
    CHECK(dress.transmission == 0.5F);
    CHECK(dress.spread == doctest::Approx(radians_from_degrees(30)));
    CHECK(dress.direct == 0.25F);
    CHECK(dress.reflectance == Rgb(0.1F));
    CHECK(material_of(scene, scene.stand_ins[1].hair).measured == MeasuredReflectance::kFairHair);
    CHECK(scene.regions[0].surface == figure.dress);
}
