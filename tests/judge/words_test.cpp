#include "judge/words.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace dapple;

TEST_CASE("words change at the thresholds that are stated") {
    CHECK(light_word(0.33) == "as set");
    CHECK(light_word(-0.34) == "a little under");
    CHECK(light_word(1.01) == "over");
    CHECK(light_word(-3.01) == "far under");
    CHECK(light_word(-INFINITY) == "no light");
    CHECK(ratio_word(0.66) == "reversed");
    CHECK(ratio_word(1.49) == "flat");
    CHECK(ratio_word(1.5) == "soft");
    CHECK(ratio_word(3) == "strong");
    CHECK(ratio_word(8) == "stark");
    CHECK(texture_word(0) == "even");
    CHECK(texture_word(0.1) == "gentle");
    CHECK(texture_word(0.35) == "broken");
    CHECK(texture_word(0.8) == "hard");
    CHECK(shadow_word(0.09) == "open");
    CHECK(shadow_word(0.1) == "partly deep");
    CHECK(shadow_word(0.4) == "deep");
    CHECK(clipping_word(0) == "hold");
    CHECK(clipping_word(0.001) == "a little burnt");
    CHECK(clipping_word(0.01) == "burnt");
}

TEST_CASE("a ratio has a word only if its error is known and under half a stop") {
    CHECK(ratio_word(Measure::known(4, 1.3)) == "strong");
    CHECK(ratio_word(Measure::known(4, 1.4)) == "not sure yet");  // 4 ln(2)/2 = 1.39
    CHECK(ratio_word(Measure::known(4, 0.001, 3)) == "not sure yet");
    CHECK(ratio_word(Measure::known(4, 0.001, 4)) == "strong");
    CHECK(ratio_word(Measure::known(0, 0)) == "reversed");
}

TEST_CASE("a meter's light has a word only if its error is known and under a sixth of a stop") {
    CHECK(light_word(Measure::known(0.4, 0.16)) == "a little over");
    CHECK(light_word(Measure::known(0.4, 0.17)) == "not sure yet");
    // The ± of few passes is wider than their spread, and of fewer than four it is not known.
    CHECK(light_word(Measure::known(0.4, 0.16, 4)) == "not sure yet");
    CHECK(light_word(Measure::known(0.4, 0.01, 3)) == "not sure yet");
    CHECK(light_word(Measure{0.4, std::nullopt, "", 1}) == "not sure yet");
    CHECK(light_word(Measure::unknown("no light")) == "no light");
}
