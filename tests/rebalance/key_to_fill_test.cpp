// Key to fill is the same in judging and in balancing, also where no fixture is called fill.
#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "judge/judge_film.h"
#include "output/balance_text.h"
#include "rebalance/balance.h"
#include "rebalance/rebalance.h"
#include "rebalance/record_of.h"

using namespace dapple;

namespace {

// One lamp and two windows, as in a hall by day; the meters are called after key and fill.
FilmRecord hall(bool has_windows = true) {
    Scene scene = three_lamps();
    scene.fixtures[0].name = "key spot";
    scene.fixtures[1].name = "window 1";
    scene.fixtures[2].name = "window 2";
    scene.fixtures[1].is_window = scene.fixtures[2].is_window = true;
    scene.meters[0].name = "face, key side";
    scene.meters[1].name = "face, fill side";
    const TrueLight light{plain_light().luminance, [=](int meter, int fixture, int) {
                              constexpr std::array<std::array<double, 3>, 2> kLux = {
                                  {{2250, 450, 560}, {900, 98, 215}}};
                              if (fixture > 0 && !has_windows) return 0.0;
                              return kLux[static_cast<size_t>(meter)][static_cast<size_t>(fixture)];
                          }};
    return record_of(scene, light, 4);
}

Balance balanced(const FilmRecord& film, const std::string& text) {
    Problems problems;
    const auto target = parse_target(film, text, problems);
    for (const Problem& p : problems.all()) FAIL(to_string(p));
    return find_balance(film, {*target}, {});
}

double judged_key_to_fill(const FilmRecord& film) {
    for (const Ratio& r : judge_film(film).ratios) {
        if (r.from == "meters" && r.name == "key : fill") return *r.value;
    }
    FAIL("no ratio");
    return 0;
}

std::string text_of(const Balance& balance, const FilmRecord& film) {
    const FilmRecord after =
        rebalance(film, balance.fixtures, make_layer_changes(film, balance.fixtures));
    return balance_table_text(balance, film, after, {""}, {});
}

}  // namespace

TEST_CASE("key to fill without a fixture called fill is what judge measures") {
    const FilmRecord film = hall();
    CHECK(judged_key_to_fill(film) == doctest::Approx(2250.0 / 215));
    for (const char* text : {"key:fill = 4", "4:1", "key to fill = 2 stops"}) {
        CAPTURE(text);
        const Balance found = balanced(film, text);
        const TargetResult& result = found.results[0];
        CHECK(spot_text(film, result.target.light) == "key spot at face, key side");
        CHECK(spot_text(film, *result.target.against) == "window 2 at face, fill side");
        CHECK(std::exp2(result.before) == doctest::Approx(2250.0 / 215));
        REQUIRE(result.is_reached());
        // Only the lamp has a dimmer.
        CHECK(found.fixtures[0].dimmer == doctest::Approx(4 * 215.0 / 2250).epsilon(0.01));
        const FilmRecord after =
            rebalance(film, found.fixtures, make_layer_changes(film, found.fixtures));
        CHECK(judged_key_to_fill(after) == doctest::Approx(4).epsilon(0.01));
    }
}

TEST_CASE("all light at two meters is meant only by their names") {
    const FilmRecord film = hall();
    const Target target = balanced(film, "face, key side:face, fill side = 3").results[0].target;
    CHECK(target.light.fixture == -1);
    CHECK(target.against->fixture == -1);
}

TEST_CASE("where there is no fill, key to fill says so") {
    const FilmRecord film = hall(false);
    Problems problems;
    CHECK_FALSE(parse_target(film, "key:fill = 4", problems));
    REQUIRE(problems.all().size() == 1);
    CHECK(to_string(problems.all()[0]) ==
          "key:fill = 4: there is no fill: no fixture has the word in its name, and no other gives "
          "light there; for all light at two meters write their whole names");
}

TEST_CASE("that the only lamp is turned off is said plainly") {
    const FilmRecord film = hall();
    const std::string dark = text_of(balanced(film, "face, key side = 1010 lx"), film);
    CHECK(dark.find("Careful: these dimmers turn off the only lamp that is on, key spot.\n") !=
          std::string::npos);
    CHECK(text_of(balanced(film, "face, key side = 2000 lx"), film).find("Careful") ==
          std::string::npos);
}
