// The sentence about a film's light says what its fixtures are, and no more.
#include "judge/light_sentence.h"

#include <doctest/doctest.h>

#include "judge/known_films.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// Looks along -z from 4 m before the wall.
FilmRecord film_of(const std::vector<std::string>& fixtures, const std::vector<double>& light) {
    FilmRecord record =
        known_film(90, 60, fixtures, [&](int, int, size_t fixture) { return light[fixture]; });
    record.camera.position = Point(0, 1, 0);
    record.camera.frame = {Vec3(1, 0, 0), Vec3(0, 1, 0), Vec3(0, 0, -1)};
    record.camera.white_k = 4300;
    for (Fixture& f : record.fixtures) f.cct_k = 4300;
    return record;
}

std::string sentence_of(const FilmRecord& record) {
    return light_sentence(record, judge_film(record));
}

}  // namespace

TEST_CASE("a film without places says colours and parts, and no sides") {
    FilmRecord record = film_of({"key", "window", "edge"}, {10, 4, 3});
    record.fixtures[0].cct_k = 3000;
    record.fixtures[1].cct_k = 6500;
    add_meter(record, "face", Point(0, 1, -3), {100, 60, 5}, 0);
    CHECK(sentence_of(record) == "Warm key, cool window as fill, edge; soft contrast.");
}

TEST_CASE("the contrast is that on the figure, also where meters read another one") {
    FilmRecord record = known_film(60, 40, {"key", "fill"}, [](int x, int, size_t fixture) {
        return fixture == 0 ? (x < 30 ? 11.0 : 0.0) : 1.0;
    });
    record.surfaces.push_back("figure skin");
    put_surface(record, 1, Normal(-0.6F, 0, 0.8F), 0.5F, {10, 10, 30, 30});
    put_surface(record, 1, Normal(0.6F, 0, 0.8F), 0.5F, {30, 10, 50, 30});
    add_meter(record, "face, key side", Point(0), {100, 50}, 0);
    add_meter(record, "face, fill side", Point(0), {20, 50}, 0);
    CHECK(sentence_of(record) == "Key, fill; stark contrast.");
    record.run.passes = 3;
    CHECK(sentence_of(record) == "Key, fill.");
}

TEST_CASE("where the lamps are and what they pass is said if the film keeps it") {
    FilmRecord record = film_of({"key", "net"}, {10, 4});
    record.lamp_places = {{Point(-2, 1.5F, -2), {"tumbler", "figure dress"}},
                          {Point(1, 1, -6), {"ribbed jar", "scrim", "third"}}};
    CHECK(sentence_of(record) ==
          "Key from camera left through the tumbler, "
          "net from behind on camera right through the ribbed jar and the scrim.");
}

TEST_CASE("fixtures that are off or hardly seen are not named, and many are counted") {
    CHECK(sentence_of(film_of({"key", "off", "faint", "a", "b", "c", "d", "e"},
                              {10, 0, 0.01, 8, 7, 6, 5, 4})) == "Key, a, b and 3 more lights.");
    CHECK(sentence_of(film_of({"key", "off", "faint", "a", "b", "c", "d"},
                              {10, 0, 0.01, 8, 7, 6, 5})) == "Key, a, b, c and d.");
    CHECK(sentence_of(film_of({"key", "a", "b", "c"}, {10, 4, 3, 1})) == "Key, a, b and c.");
    CHECK(sentence_of(film_of({"key"}, {0})) == "No light.");
}

TEST_CASE("warm and cool are counted in mired from the camera's white, behind gel and dimmer") {
    Fixture fixture;
    fixture.cct_k = 1e6F / 225;  // mired
    CHECK(colour_word(fixture, 1e6 / 201) == "");
    CHECK(colour_word(fixture, 1e6 / 199) == "warm");
    CHECK(colour_word(fixture, 1e6 / 251) == "cool");
    fixture.gel.shift_mired = 30;
    CHECK(colour_word(fixture, 1e6 / 225) == "warm");
    fixture.gel = {};
    fixture.gel.spectrum.emplace();
    CHECK(colour_word(fixture, 1e6 / 225) == "gelled");
    Fixture tungsten;
    tungsten.source = SourceKind::kTungsten;
    tungsten.cct_k = 3200;
    CHECK(colour_word(tungsten, 3200) == "");
    tungsten.dimmer = 0.1F;  // about 2450 K, 95 mired lower
    CHECK(colour_word(tungsten, 3200) == "warm");
    tungsten.dimmer_warms = false;
    CHECK(colour_word(tungsten, 3200) == "");
}

TEST_CASE("sides are the camera's, seen from the subject") {
    Camera camera;
    camera.frame = {Vec3(1, 0, 0), Vec3(0, 1, 0), Vec3(0, 0, -1)};
    const Point subject(0, 1, -4);
    const auto side = [&](float right, float up, float nearer) {
        return side_word(camera, subject, subject + Vec3(right, up, nearer));
    };
    CHECK(side(-2, 1, 2) == "from camera left");
    CHECK(side(2, 0, 0) == "from camera right");
    CHECK(side(0.1F, 0.5F, 3) == "from the front");
    CHECK(side(1.5F, 0, -1.5F) == "from behind on camera right");
    CHECK(side(0.1F, 0, -2) == "from behind");
    CHECK(side(0.5F, 2, 0.5F) == "from above");
}
