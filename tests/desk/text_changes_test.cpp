// What a step of a drag changes about the text of a set.
#include "desk/text_changes.h"

#include <doctest/doctest.h>

#include <string>

namespace dapple {

namespace {

const std::string kSet = R"(
[camera]
position = [0, 1, 4]
aim = [0, 1, 0]
[[fixture]]
name = "key"
position = [1, 2, 0]
[[fixture]]
name = "rim"
position = [-1, 2, 0]
[[diffuser]]
name = "cloth"
clip_to = "key"
clip_mm = 20
[[diffuser]]
name = "frame"
position = [0, 1, 0]
[[surface]]
name = "wall"
reflectance = 0.5
)";

std::string changed(std::string text, const std::string& from, const std::string& to) {
    const size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

TextChanges from_set(const std::string& from, const std::string& to) {
    return changes_between(outline_of(kSet), outline_of(changed(kSet, from, to)));
}

}  // namespace

TEST_CASE("a fixture that is moved, turned, focused or made larger is the only one that changes") {
    const TextChanges moved = from_set("[-1, 2, 0]", "[-1, 2, 0.1]");
    CHECK(moved.are_there);
    CHECK(moved.only_places);
    CHECK(moved.fixture == 1U);
    const TextChanges focused = from_set("[1, 2, 0]", "[1, 2, 0]\nbeam_angle_deg = 20");
    CHECK(focused.fixture == 0U);
    CHECK(focused.only_places);
    const TextChanges larger = from_set("[1, 2, 0]", "[1, 2, 0]\nsource_mm = 20");
    CHECK(larger.fixture == 0U);
    CHECK(larger.only_places);
}

TEST_CASE("cloth that is clipped to a fixture belongs to it, other cloth to none") {
    CHECK(from_set("clip_mm = 20", "clip_mm = 30").fixture == 0U);
    const TextChanges free = from_set("[0, 1, 0]\n[[surface]]", "[0, 1, 0.1]\n[[surface]]");
    CHECK_FALSE(free.fixture);
    CHECK(free.only_places);
}

TEST_CASE("a fixture that another thing is aimed at does not change alone") {
    const std::string aimed =
        changed(kSet, "position = [-1, 2, 0]", "position = [-1, 2, 0]\naim = \"key\"");
    const std::string moved = changed(aimed, "[1, 2, 0]", "[1, 2, 0.1]");
    CHECK_FALSE(changes_between(outline_of(aimed), outline_of(moved)).fixture);
}

TEST_CASE("two fixtures are not one") {
    const std::string both =
        changed(changed(kSet, "[1, 2, 0]", "[1, 2, 1]"), "[-1, 2, 0]", "[-1, 2, 1]");
    CHECK_FALSE(changes_between(outline_of(kSet), outline_of(both)).fixture);
}

TEST_CASE("what changes surfaces, the lens or the list of things is more than places") {
    CHECK_FALSE(from_set("reflectance = 0.5", "reflectance = 0.4").only_places);
    CHECK_FALSE(from_set("[0, 1, 4]", "[0, 1, 5]").only_places);
    CHECK_FALSE(from_set("[[surface]]", "[[flag]]\nposition = [0, 0, 0]\n[[surface]]").only_places);
    CHECK_FALSE(from_set("clip_mm = 20", "clip_mm = 20\ntransmission = 0.5").only_places);
}

TEST_CASE("a text that is the same has no changes") {
    const TextChanges none = changes_between(outline_of(kSet), outline_of(kSet + "# a note\n"));
    CHECK_FALSE(none.are_there);
    CHECK(none.only_places);
    CHECK_FALSE(none.fixture);
}

}  // namespace dapple
