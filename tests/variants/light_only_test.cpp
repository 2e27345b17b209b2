#include "variants/light_only.h"

#include <doctest/doctest.h>

using namespace dapple;

TEST_CASE("variants that differ only in light share the film of the first") {
    const std::vector<Variant> variants = {
        {"a", "a", {{"glass.jar.turn_deg", "0", {}}, {"fixture.moon.dimmer", "1", {}}}},
        {"b", "b", {{"glass.jar.turn_deg", "0", {}}, {"fixture.moon.dimmer", "0.5", {}}}},
        {"c", "c", {{"glass.jar.turn_deg", "9", {}}, {"fixture.moon.dimmer", "1", {}}}},
        {"d", "d", {{"glass.jar.turn_deg", "9", {}}, {"fixture.moon.gel.stops", "1", {}}}},
        {"e", "e", {{"glass.jar.turn_deg", "9", {}}, {"fixture.moon.position", "[0, 1, 2]", {}}}}};
    CHECK(film_of_each(variants) == std::vector<size_t>{0, 0, 2, 2, 4});
    CHECK(light_settings(variants[1]) == std::vector<std::string>{"moon.dimmer=0.5"});
    CHECK(light_settings(variants[4]).empty());
    CHECK(is_light_only({"fixture.moon.gel", "\"1/2 CTB\"", {}}));
    CHECK_FALSE(is_light_only({"fixture.moon.gel", "{ file = \"rose.csv\" }", {}}));
    CHECK_FALSE(is_light_only({"fixture.moon.beam_angle_deg", "10", {}}));
    CHECK_FALSE(is_light_only({"window.dusk.cct_k", "9000", {}}));
}
