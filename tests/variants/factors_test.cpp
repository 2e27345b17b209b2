// Knobs as factors, and what they are called.
#include "variants/factors.h"

#include <doctest/doctest.h>

#include "set/variants/read_variants.h"
#include "variants/knob_words.h"

using namespace dapple;

namespace {

Knob knob_of(const std::string& address, const std::vector<std::string>& values) {
    return {{{address, VariedValues{values}, {}}}};
}

std::vector<Factor> factors_of(const VariantsFile& file) {
    Problems problems;
    const std::vector<Variant> variants = choose_variants(file, problems);
    REQUIRE(problems.empty());
    return make_factors(file, variants);
}

}  // namespace

TEST_CASE("each knob of a grid is a factor whose levels are its values") {
    VariantsFile file;
    file.knobs = {knob_of("glass.jar.turn_deg", {"0", "7.5"}),
                  knob_of("flag.wing", {"true", "false"}),
                  knob_of("camera.iso", {"800"})};
    const std::vector<Factor> factors = factors_of(file);
    REQUIRE(factors.size() == 2);
    CHECK(factors[0].levels == std::vector<std::string>{"0°", "7.5°"});
    CHECK(factors[0].level == std::vector<size_t>{0, 0, 1, 1});
    CHECK(factors[1].levels == std::vector<std::string>{"with", "without"});
    CHECK(factors[1].level == std::vector<size_t>{0, 1, 0, 1});
    CHECK_FALSE(factors[0].is_line());
}

TEST_CASE("knobs that change together in a list are one factor") {
    VariantsFile file;
    file.choose = Choose::kList;
    file.knobs = {knob_of("glass.jar.turn_deg", {"0", "5", "0", "5"}),
                  knob_of("fixture.key.cct_k", {"3200", "5600", "3200", "5600"}),
                  knob_of("fixture.key.dimmer", {"1", "1", "0.5", "0.5"})};
    const std::vector<Factor> factors = factors_of(file);
    REQUIRE(factors.size() == 2);
    CHECK(factors[0].addresses.size() == 2);
    CHECK(factors[0].has_several_knobs);
    CHECK(factors[0].levels == std::vector<std::string>{"0°, 3200 K", "5°, 5600 K"});
    CHECK_FALSE(factors[1].has_several_knobs);
}

TEST_CASE("a range in samples is a line from its lowest to its highest value") {
    VariantsFile file;
    file.choose = Choose::kSamples;
    file.samples = 8;
    file.knobs = {{{{"fixture.key.cct_k", VariedRange{3000, 6000, 0}, {}}}},
                  knob_of("flag.wing", {"true", "false"})};
    const std::vector<Factor> factors = factors_of(file);
    REQUIRE(factors.size() == 2);
    REQUIRE(factors[0].is_line());
    CHECK(factors[0].at.size() == 8);
    CHECK(factors[0].levels.size() == 2);
    CHECK(factors[0].levels[0] < factors[0].levels[1]);
    CHECK_FALSE(factors[1].is_line());
}

TEST_CASE("the keys of one swap are one knob, named by its first key") {
    VariantsFile file;
    file.knobs = {{{{"glass.jar", VariedValues{{"{ kit = \"bottle\" }", "{ kit = \"jar\" }"}}, {}},
                    {"glass.ball", VariedValues{{"true", "false"}}, {}}}},
                  knob_of("flag.wing", {"true", "false"})};
    const std::vector<Factor> factors = factors_of(file);
    REQUIRE(factors.size() == 2);
    CHECK(factors[0].levels == std::vector<std::string>{"bottle", "jar"});
    CHECK_FALSE(factors[0].has_several_knobs);
}

TEST_CASE("addresses and measures are said in words") {
    CHECK(words_for_address("glass.ribbed jar.turn_deg") == "ribbed jar turn");
    CHECK(words_for_address("fixture.key.gel.shift_mired") == "key gel shift");
    CHECK(words_for_address("camera.f_number") == "camera f number");
    CHECK(words_for_address("fixture.moon.cct_k") == "moon colour");
    CHECK(words_for_address("flag.wing") == "wing");
    CHECK(words_for_level("fixture.moon.cct_k", "3200") == "3200 K");
    CHECK(words_for_level("fixture.key.position", "[0, 1, 2]") == "[0, 1, 2]");
    CHECK(words_for_measure("back wall.texture_stops").name == "back wall texture");
    CHECK(words_for_measure("figure.key_to_fill").name == "figure key : fill");
    CHECK(words_for_measure("frame.p95").name == "frame p95");
    CHECK(words_for_measure("frame.clipped_share").scale == 100);
}

TEST_CASE("figures have the digits that their errors leave") {
    CHECK(figure_text(0.42345, 0.0213) == "0.42 ± 0.02");
    CHECK(figure_text(0.42345, 0.0113) == "0.423 ± 0.011");
    CHECK(figure_text(173.66, 54.9) == "174 ± 55");
    CHECK(figure_text(2.23945, 0.00026) == "2.239 ± < 0.001");
    CHECK(figure_text(-0.0003, 0.65) == "0.0 ± 0.7");
    CHECK(figure_text(-1.5, 0.2) == "−1.5 ± 0.2");
    CHECK(figure_text(1234.6, std::nullopt) == "1235");
    CHECK(figure_text(0.5, 0.0) == "0.500 ± 0");
}
