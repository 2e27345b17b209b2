#include "rebalance/settings.h"

#include <doctest/doctest.h>

#include "rebalance/record_of.h"

using namespace dapple;

namespace {

struct Applied {
    std::vector<Fixture> fixtures;
    std::string problem;  // the first one
    std::string note;
};

Applied apply(const Settings& settings, const Scene& scene = three_lamps()) {
    const FilmRecord film = record_of(scene, plain_light(), 1);
    Problems problems;
    Applied applied{apply_settings(film, settings, problems), "", ""};
    if (!problems.empty()) applied.problem = to_string(problems.all().front());
    if (!problems.notes().empty()) applied.note = to_string(problems.notes().front());
    return applied;
}

Applied set(const std::string& text) {
    return apply({{text}, {}, {}});
}

}  // namespace

TEST_CASE("a setting changes the one thing that it names") {
    CHECK(set("net.dimmer=0.5").fixtures[0].dimmer == 0.5F);
    CHECK(set(" net.cct_k = 4800 ").fixtures[0].cct_k == 4800);
    CHECK(set("net.duv=-0.003").fixtures[0].duv == -0.003F);
    CHECK(set("key.gel.shift_mired=-35").fixtures[1].gel.shift_mired == -35);
    CHECK(set("key.gel.stops=1.5").fixtures[1].gel.stops == 1.5);
    CHECK(set("key.dimmer=0.5").problem.empty());
    CHECK(set("key.gel=1/2 CTB + 0.3 ND").fixtures[1].gel.shift_mired ==
          doctest::Approx(-0.5 * (1e6 / 3200 - 1e6 / 5600)));
    CHECK(set("key.gel=0.3 ND").fixtures[1].gel.stops == doctest::Approx(1).epsilon(0.005));
    const Applied none = apply({{"key.gel.shift_mired=35", "key.gel=none"}, {}, {}});
    CHECK(none.fixtures[1].gel.shift_mired == 0);
    CHECK(set("key.gel=peach").problem ==
          "--set key.gel=peach: must be such as \"1/4 CTO\", \"full CTB\", \"0.6 ND\" or \"none\"");
}

TEST_CASE("one can be off, and one can be alone") {
    const Applied off = apply({{}, {"key"}, {}});
    CHECK(off.fixtures[0].dimmer == 1);
    CHECK(off.fixtures[1].dimmer == 0);
    const Applied solo = apply({{"sky.dimmer=0.5"}, {}, {"sky"}});
    CHECK(solo.fixtures[0].dimmer == 0);
    CHECK(solo.fixtures[1].dimmer == 0);
    CHECK(solo.fixtures[2].dimmer == 0.5F);
}

TEST_CASE("an address as in a file of variants is understood") {
    CHECK(apply({{"fixture.net.dimmer=0.25"}, {}, {}}).fixtures[0].dimmer == 0.25F);
    CHECK(apply({{"window.sky.dimmer=0.25"}, {}, {}}).fixtures[2].dimmer == 0.25F);
}

TEST_CASE("what cannot be is reported with what is allowed") {
    CHECK(set("nett.dimmer=1").problem ==
          "--set nett.dimmer=1: there is no fixture \"nett\"; did you mean net?");
    CHECK(set("lantern.dimmer=1").problem ==
          "--set lantern.dimmer=1: there is no fixture \"lantern\"; there are net, key, sky");
    CHECK(set("net.dimer=1").problem ==
          "--set net.dimer=1: has the key \"dimer\"; can be set: dimmer, cct_k, duv, "
          "gel.shift_mired, gel.stops, gel; did you mean dimmer?");
    for (const char* text : {"", "net", "net.dimmer", "net.dimmer=", "net.dimmer=half", "=1"}) {
        CAPTURE(text);
        CHECK(set(text).problem == "--set " + std::string(text) +
                                       ": must be FIXTURE.KEY=NUMBER, such as \"net.dimmer=0.5\"");
    }
    CHECK(set("fixture.lantern.dimmer=1").problem ==
          "--set fixture.lantern.dimmer=1: there is no fixture \"lantern\"; there are net, key, "
          "sky");
    CHECK(set("net.dimmer=-0.1").problem ==
          "--set net.dimmer=-0.1: is -0.1; must be from 0 to 1000");
    CHECK(set("net.cct_k=1500").problem ==
          "--set net.cct_k=1500: is 1500; must be from 2000 to 10000");
    CHECK(set("key.duv=0.001").problem ==
          "--set key.duv=0.001: is 0.001; must be left out: only source \"led\" has it");
    CHECK(set("net.gel.stops=17").problem == "--set net.gel.stops=17: is 17; must be from 0 to 16");
    CHECK(apply({{}, {"kee"}, {}}).problem ==
          "--off: there is no fixture \"kee\"; did you mean key?");
}

TEST_CASE("what the fixture could not follow is noted and done") {
    const Applied brighter = set("net.dimmer=2");
    CHECK(brighter.fixtures[0].dimmer == 2);
    CHECK(brighter.note ==
          "--set net.dimmer=2: is more than the fixture has; its dimmer ends at 1");
    CHECK(set("key.cct_k=3400").note ==
          "--set key.cct_k=3400: is another lamp: this fixture cannot change its colour");
}

TEST_CASE("a fixture that was dark in the render cannot be turned up") {
    Scene scene = three_lamps();
    scene.fixtures[1].dimmer = 0;
    CHECK(apply({{"key.dimmer=0.5"}, {}, {}}, scene).problem ==
          "key: is dark in this film, so there is no light to scale; render the set with its "
          "dimmer above 0");
    CHECK(apply({{"net.dimmer=0.5"}, {}, {}}, scene).problem.empty());
}
