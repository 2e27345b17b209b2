// Named cloths, clip-on diffusers, stencils and the finishes of boards.
#include "scene/boards_and_figures/cloths.h"
#include "scene/written_set.h"

using namespace dapple;

namespace {

const std::string kBoardsSet = kRoom + kCamera + kFixture;
const std::string kPlaced = "position = [0, 1, 0]\naim = [1, 2, 1]\nsize_m = [0.9, 0.9]\n";

const Material& material_of(const Scene& scene, const Board& board) {
    return scene.materials[static_cast<size_t>(board.material)];
}

}  // namespace

TEST_CASE("a named cloth passes 2^-stops of the light, and keys in the set come first") {
    WrittenSet set;
    for (const Cloth& cloth : kCloths) {
        CAPTURE(cloth.name);
        const std::string table =
            "[[diffuser]]\n" + kPlaced + "cloth = \"" + std::string(cloth.name) + "\"\n";
        const Scene scene = set.build_clean(kBoardsSet + table);
        const Material& sheet = material_of(scene, scene.boards[0]);
        CHECK(sheet.kind == MaterialKind::kSheet);
        CHECK(-std::log2(sheet.transmission) == near(cloth.stops));
        CHECK(sheet.spread == near(radians_from_degrees(cloth.spread_deg)));
        CHECK(sheet.direct == near(cloth.direct));
        const Scene own = set.build_clean(kBoardsSet + table + "spread_deg = 33\n");
        CHECK(material_of(own, own.boards[0]).spread == near(radians_from_degrees(33)));
        CHECK(material_of(own, own.boards[0]).transmission == sheet.transmission);
    }
}

TEST_CASE("a clip-on diffuser is in front of its fixture's lens and covers its beam") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        kBoardsSet + "[[diffuser]]\nclip_to = \"key\"\nclip_mm = 20\ncloth = \"half\"\n");
    const Fixture& key = scene.fixtures[0];
    const Board& clip = scene.boards[0];
    CHECK(glm::distance(clip.centre, key.position + 0.02F * key.axis) < 1e-6F);
    CHECK(glm::distance(clip.facing, key.axis) < 1e-6F);
    CHECK(clip.round);
    CHECK(clip.size.x > key.source_diameter + 0.04F * std::tan(0.5F * key.field_angle));
    const Scene panel =
        set.build_clean(kRoom + kCamera +
                        "[[fixture]]\nname = \"panel\"\nform = \"panel\"\npanel_m = [0.6, "
                        "0.3]\nposition = [1, 2, 1]\n"
                        "aim = [0, 1, 0]\noutput_lm = 1000\n[[diffuser]]\nclip_to = \"panel\"\n");
    CHECK_FALSE(panel.boards[0].round);
    CHECK(panel.boards[0].size.x > 0.6F);
    CHECK(panel.boards[0].size.y > 0.3F);
}

TEST_CASE("a stencil is a flag that is solid where its picture is bright") {
    WrittenSet set;
    set.file("holes.png", "a picture");
    const Scene scene =
        set.build_clean(kBoardsSet + "[[flag]]\n" + kPlaced + "stencil = \"holes.png\"\n");
    const Material& cutter = material_of(scene, scene.boards[0]);
    REQUIRE(cutter.opacity_texture == 0);
    CHECK_FALSE(scene.textures[0].srgb);
    CHECK(set.images_read.size() == 1);
}

TEST_CASE("boards are white unless their finish is silver or gold") {
    WrittenSet set;
    const auto board = [&](const std::string& keys) {
        const Scene scene = set.build_clean(kBoardsSet + "[[bounce]]\n" + kPlaced + keys);
        return material_of(scene, scene.boards[0]);
    };
    CHECK(board("").kind == MaterialKind::kLambertian);
    CHECK(board("finish = \"white\"\n").reflectance == board("").reflectance);
    const Material silver = board("finish = \"silver\"\n");
    CHECK(silver.kind == MaterialKind::kConductor);
    CHECK(silver.reflectance.x == silver.reflectance.z);
    const Material gold = board("finish = \"gold\"\nroughness = 0.1\n");
    CHECK(gold.reflectance.x > 2 * gold.reflectance.z);
    CHECK(gold.roughness == near(0.1));
}

TEST_CASE("each mistake in a sheet or a board is reported in one line") {
    WrittenSet set;
    const std::string place = "position = [0, 1, 0]\n";
    const auto lines = [&](const std::string& table) {
        set.build(table + kBoardsSet);
        REQUIRE(set.lines().size() == 1);
        return set.lines()[0];
    };
    CHECK(lines("[[diffuser]]\nclip_to = \"kez\"\n") ==
          "set.toml:2:1: diffuser 1: clip_to: there is no fixture \"kez\"; did you mean \"key\"?");
    CHECK(lines("[[diffuser]]\nclip_to = \"key\"\nposition = [0, 1, 0]\n") ==
          "set.toml:3:1: diffuser 1: position: is given beside clip_to; give only one of them");
    CHECK(lines("[[diffuser]]\nclip_mm = 5\n" + kPlaced) ==
          "set.toml:2:1: diffuser 1: clip_mm: is only for what is clipped with clip_to");
    CHECK(lines("[[flag]]\nstencil = \"no.png\"\n" + kPlaced)
              .find("set.toml:2:1: flag 1: stencil:") == 0);
    CHECK(lines("[[bounce]]\nfinish = \"golden\"\n" + kPlaced) ==
          "set.toml:2:1: bounce 1: finish: is \"golden\"; must be one of white, silver, gold; did "
          "you "
          "mean gold?");
    CHECK(lines("[[diffuser]]\ncloth = \"ful\"\n" + kPlaced).find("did you mean full?") !=
          std::string::npos);
}
