#include "rebalance/rebalance.h"

#include <doctest/doctest.h>

#include "rebalance/record_of.h"

using namespace dapple;

namespace {

FilmRecord rebalanced(const FilmRecord& film, const std::vector<Fixture>& wanted) {
    return rebalance(film, wanted, make_layer_changes(film, wanted));
}

// The same light rendered with other fixtures.
FilmRecord made_anew(std::vector<Fixture> fixtures, int passes = 12) {
    Scene scene = three_lamps();
    scene.fixtures = std::move(fixtures);
    return record_of(scene, plain_light(), passes);
}

void check_same(const FilmRecord& a, const FilmRecord& b, double tolerance) {
    for (size_t i = 0; i < a.light.size(); ++i) {
        for (int c = 0; c < 3; ++c) {
            CHECK(a.light[i][c] == doctest::Approx(b.light[i][c]).epsilon(tolerance));
        }
        CHECK(a.luminance[i] == doctest::Approx(b.luminance[i]).epsilon(tolerance));
    }
    for (size_t m = 0; m < a.meters.size(); ++m) {
        CHECK(a.meters[m].lux.sum() == doctest::Approx(b.meters[m].lux.sum()).epsilon(tolerance));
    }
    CHECK(a.regions[0].luminance.sum() ==
          doctest::Approx(b.regions[0].luminance.sum()).epsilon(tolerance));
    CHECK(a.frame.sum() == doctest::Approx(b.frame.sum()).epsilon(tolerance));
}

}  // namespace

TEST_CASE("a dimmed film is the film of the dimmed set, its errors too") {
    const FilmRecord film = record_of(three_lamps(), plain_light(), 12);
    std::vector<Fixture> wanted = film.fixtures;
    wanted[0].dimmer = 0.25F;
    wanted[2].dimmer = 0;
    const FilmRecord dimmed = rebalanced(film, wanted);
    const FilmRecord anew = made_anew(wanted);
    check_same(dimmed, anew, 1e-5);
    CHECK(*dimmed.meters[0].lux.stderr_of_sum() ==
          doctest::Approx(*anew.meters[0].lux.stderr_of_sum()).epsilon(1e-4));
    CHECK(*dimmed.regions[0].luminance.stderr_of_sum() ==
          doctest::Approx(*anew.regions[0].luminance.stderr_of_sum()).epsilon(1e-4));
    CHECK(dimmed.fixtures[0].dimmer == 0.25F);
}

TEST_CASE("on grey surfaces another colour is the film of the recoloured set") {
    const FilmRecord film = record_of(three_lamps(), plain_light(), 12);
    std::vector<Fixture> wanted = film.fixtures;
    wanted[0].cct_k = 3600;
    wanted[1].dimmer = 0.3F;  // and warmer
    wanted[2].gel.shift_mired = 60;
    wanted[2].gel.stops = 0.5;
    // Fresh passes correct the few wavelengths by another ratio: 1e-3 in XYZ (film.h).
    check_same(rebalanced(film, wanted), made_anew(wanted), 2e-3);
}

TEST_CASE("a channel that the film has no light of is taken from the other one") {
    Scene scene = three_lamps();
    scene.fixtures[0].cct_k = 8000;  // its warm channel is dark
    const FilmRecord film = record_of(scene, plain_light(), 12);
    std::vector<Fixture> wanted = film.fixtures;
    wanted[0].cct_k = 4000;
    check_same(rebalanced(film, wanted), made_anew(wanted), 2e-3);
}

TEST_CASE("rebalancing twice is rebalancing once, and back again changes nothing") {
    const FilmRecord film = record_of(three_lamps(), plain_light(), 12);
    std::vector<Fixture> once = film.fixtures;
    once[0].cct_k = 3600;
    once[1].dimmer = 0.3F;
    check_same(rebalanced(rebalanced(film, once), film.fixtures), film, 1e-5);
}

TEST_CASE("a pixel's error shrinks with the light of its groups") {
    FilmRecord film = record_of(three_lamps(), plain_light(), 12);
    std::vector<Fixture> wanted = film.fixtures;
    for (Fixture& f : wanted) f.dimmer = 0.5F;
    wanted[1].dimmer_warms = false;
    const FilmRecord half = rebalanced(film, wanted);
    for (size_t i = 0; i < film.luminance.size(); ++i) {
        CHECK(half.luminance_stderr[i] ==
              doctest::Approx(0.5 * film.luminance_stderr[i]).epsilon(1e-3));
    }
}

TEST_CASE("after one pass there are no errors to rebalance") {
    const FilmRecord film = record_of(three_lamps(), plain_light(), 1);
    std::vector<Fixture> wanted = film.fixtures;
    wanted[0].dimmer = 0.5F;
    CHECK_FALSE(rebalanced(film, wanted).meters[0].lux.stderr_of_sum());
}
