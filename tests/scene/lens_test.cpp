// The lens of [camera]: what is read, what is refused, and the user's own table.
#include <doctest/doctest.h>

#include "written_set.h"

using namespace dapple;

namespace {

std::string with_lens(const std::string& keys) {
    return kRoom + kCamera + keys + kFixture;
}

const std::string kTable =
    "# radius, thickness, index, Abbe, diameter\n"
    "50, 5, 1.6, 60, 30\n-50 2 1 - 30\n0 10 stop 12\n0, 40, 1, 12\n";

}  // namespace

TEST_CASE("without a lens there is none") {
    WrittenSet set;
    CHECK_FALSE(set.build_clean(with_lens("")).camera.lens.is_there());
}

TEST_CASE("a lens has a usual coating, blades and veil") {
    WrittenSet set;
    const CameraLens lens = set.build_clean(with_lens("lens = \"normal\"\n")).camera.lens;
    CHECK(lens.is_glass());
    CHECK(lens.coating == LensCoating::kMulti);
    CHECK(lens.blades == 8);
    CHECK(lens.veiling_glare == doctest::Approx(0.01));
}

TEST_CASE("a veil needs no lens") {
    WrittenSet set;
    const CameraLens lens = set.build_clean(with_lens("veiling_glare_percent = 2\n")).camera.lens;
    CHECK_FALSE(lens.is_glass());
    CHECK(lens.is_there());
}

TEST_CASE("a picture through the lens needs a lens and a distance that is sharp") {
    WrittenSet set;
    const std::string keys = "draw = \"lens\"\nlens = \"wide\"\n";
    const CameraLens lens = set.build_clean(with_lens(keys + "focus_m = 2\n")).camera.lens;
    CHECK(lens.draws);
    CHECK_FALSE(set.build_clean(with_lens("draw = \"thin\"\nlens = \"wide\"\n")).camera.lens.draws);
}

TEST_CASE("a lens table is read as written") {
    WrittenSet set;
    set.file("my lens.txt", kTable);
    const CameraLens lens =
        set.build_clean(with_lens("lens_table = \"my lens.txt\"\n")).camera.lens;
    REQUIRE(lens.rows.size() == 4);
    CHECK(lens.rows[0].abbe == 60);
    CHECK(lens.rows[1].radius == -50);
    CHECK(lens.rows[1].abbe == 0);
    CHECK(lens.rows[2].is_stop);
    CHECK(lens.rows[2].free_diameter == 12);
}

TEST_CASE("wrong lenses are refused in one line that says what is allowed") {
    const struct {
        std::string keys, message;
    } wrong[] = {
        {"lens = \"norml\"\n",
         "set.toml:6:1: camera: lens: is \"norml\"; must be one of normal, wide, portrait; did you "
         "mean normal?"},
        {"lens = \"wide\"\nblades = 2\n",
         "set.toml:7:1: camera: blades: is 2; must be 0 (round) or 3 to 24"},
        {"lens = \"wide\"\ndraw = \"lens\"\n", "set.toml:7:1: camera: draw: needs focus_m"},
        {"focus_m = 2\ndraw = \"lens\"\n", "set.toml:7:1: camera: draw: needs a lens"},
        {"lens = \"wide\"\nhood_mm = -1\n",
         "set.toml:7:1: camera: hood_mm: is -1; must be from 0 to 1000"},
        {"lens_table = \"none.txt\"\n", "camera: lens_table: "},
        {"lens = \"wide\"\nlens_table = \"lens.txt\"\n",
         "camera: lens_table: is given beside lens; give only one of them"},
        {"lens_table = \"two stops.txt\"\n",
         "two stops.txt:1: the table has 2 rows with `stop`; must be one"},
        {"lens_table = \"steep.txt\"\n",
         "steep.txt:1: the free diameter is 30; must be at most twice the radius of curvature"},
        {"lens_table = \"words.txt\"\n",
         "words.txt:2: is \"and so on\"; must be a radius, a thickness, an index or `stop`, an "
         "Abbe number and a free diameter"}};
    for (const auto& [keys, message] : wrong) {
        WrittenSet set;
        set.file("lens.txt", kTable);
        set.file("two stops.txt", "0 1 stop 12\n0 10 stop 12\n0 40 1 12\n");
        set.file("steep.txt", "10 1 1.5 30\n0 10 stop 12\n0 40 1 12\n");
        set.file("words.txt", "50 5 1.6 60 30\nand so on\n");
        set.build(with_lens(keys));
        CAPTURE(message);
        REQUIRE(set.lines().size() == 1);
        CHECK(set.lines()[0].find(message) != std::string::npos);
    }
}

TEST_CASE("keys of a lens that is not there are noted") {
    WrittenSet set;
    set.build_clean(with_lens("blades = 6\n"));
    REQUIRE(set.notes().size() == 1);
    CHECK(set.notes()[0].find("is not used: there is no lens") != std::string::npos);
}
