#include "judge/ratios.h"

#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "judge/judge_film.h"
#include "known_films.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A figure of two facets, left and right, in a frame of 60 × 40 px. The key falls on the left one
// with 8 units, the fill with 2 on both, the edge light with 2 on the right one.
FilmRecord two_facets(const std::vector<std::string>& fixtures) {
    const auto on_left = [](int x) { return x < 30; };
    FilmRecord record = known_film(60, 40, fixtures, [&](int x, int, size_t f) {
        const double reflectance = on_left(x) ? 0.5 : 0.25;
        if (f == 0) return reflectance * (on_left(x) ? 8 : 0);
        if (f == 1) return reflectance * 2;
        return reflectance * (on_left(x) ? 0 : 2);
    });
    record.surfaces.push_back("figure skin");
    const float s = std::sqrt(0.5F);
    put_surface(record, 1, Normal(-s, 0, s), 0.5F, {10, 10, 30, 30});
    put_surface(record, 1, Normal(s, 0, s), 0.25F, {30, 10, 50, 30});
    return record;
}

const Ratio& ratio_named(const std::vector<Ratio>& ratios,
                         const std::string& from,
                         const std::string& name) {
    for (const Ratio& r : ratios) {
        if (r.from == from && r.name == name) return r;
    }
    FAIL("no ratio ", from, ", ", name);
    return ratios.front();
}

}  // namespace

TEST_CASE("ratios on a figure of two facets are those worked by hand") {
    const FilmStatistics s = judge_film(two_facets({"key", "fill", "edge"}));
    CHECK(*ratio_named(s.ratios, "figure", "key : fill").value == doctest::Approx(4));
    CHECK(*ratio_named(s.ratios, "figure", "key + fill : fill").value == doctest::Approx(5));
    CHECK(*ratio_named(s.ratios, "figure", "lit : shadow side").value == doctest::Approx(10.0 / 4));
    CHECK(ratio_named(s.ratios, "figure", "key : fill").definition ==
          "key alone on the lit side : fill alone on the shadow side");
    REQUIRE(s.sides.size() == 2);
    CHECK(*s.sides[0].mean_luminance == doctest::Approx(0.5 * 10));
    CHECK(*s.sides[1].mean_luminance == doctest::Approx(0.25 * 4));
}

TEST_CASE("without names the key is what lights the figure most, the fill the shadow side") {
    const FilmStatistics s = judge_film(two_facets({"lamp one", "lamp two", "lamp three"}));
    CHECK(s.key == "lamp one");
    CHECK(s.fill == "lamp two");  // as strong there as lamp three, and first
    CHECK(*ratio_named(s.ratios, "figure", "key : fill").value == doctest::Approx(4));
}

TEST_CASE("ratios at two meters are those worked by hand, with their errors") {
    FilmRecord record = two_facets({"key", "fill", "edge"});
    add_meter(record, "far away", Point(9, 0, 0), {100, 5, 0}, 1);
    add_meter(record, "shadow side", Point(0.2F, 1.5F, 0), {20, 200, 30}, 2);
    add_meter(record, "lit side", Point(0, 1.5F, 0), {800, 100, 0}, 8);
    const FilmStatistics s = judge_film(record);
    const Ratio& alone = ratio_named(s.ratios, "meters", "key : fill");
    CHECK(*alone.value == doctest::Approx(800.0 / 200));
    // 1 % of either.
    CHECK(*alone.value.error == doctest::Approx(4 * std::hypot(0.01, 0.01)));
    CHECK(alone.definition == "key alone at \"lit side\" : fill alone at \"shadow side\"");
    CHECK(*ratio_named(s.ratios, "meters", "key + fill : fill").value ==
          doctest::Approx(900.0 / 200));
    CHECK(*ratio_named(s.ratios, "meters", "lit : shadow side").value ==
          doctest::Approx(900.0 / 250));
}

TEST_CASE("meters go by their names or facings, also where glass leaves the key's meter darker") {
    const std::array<std::array<const char*, 2>, 3> names = {
        {{"face key", "face fill"}, {"lit side", "shadow side"}, {"one", "two"}}};
    for (const auto& [key, fill] : names) {
        CAPTURE(key);
        FilmRecord record = two_facets({"key", "fill", "edge"});
        record.lamp_places = {{Point(-2, 1.5F, 2), {}}, {Point(3, 1.5F, 1), {}}, {}};
        add_meter(record, fill, Point(0.1F, 1.5F, 0), {780, 17, 6}, 0);
        add_meter(record, key, Point(0, 1.5F, 0), {210, 10, 12}, 0);
        for (size_t m = 0; m < 2; ++m) {
            Meter& meter = record.meters[m].meter;
            meter.facing = glm::normalize(record.lamp_places[1 - m].position - meter.position);
        }
        const FilmStatistics s = judge_film(record);
        const Ratio& ratio = ratio_named(s.ratios, "meters", "key : fill");
        CHECK(*ratio.value == doctest::Approx(210.0 / 17));
        CHECK(ratio.definition ==
              std::string("key alone at \"") + key + "\" : fill alone at \"" + fill + "\"");
    }
}

TEST_CASE("one meter gives key to fill there, and says what the sides need") {
    FilmRecord record = two_facets({"key", "fill", "edge"});
    add_meter(record, "face", Point(0, 1.5F, 0), {600, 150, 50}, 0);
    const FilmStatistics s = judge_film(record);
    CHECK(*ratio_named(s.ratios, "meters", "key : fill").value == doctest::Approx(4));
    const Ratio& sides = ratio_named(s.ratios, "meters", "lit : shadow side");
    CHECK_FALSE(sides.value);
    CHECK(sides.value.why.starts_with("needs a second meter"));
}

TEST_CASE("a frame without a figure, or with a tiny one, says so") {
    const FilmRecord empty =
        known_film(30, 30, {"key", "fill"}, [](int, int, size_t) { return 1.0; });
    CHECK(judge_film(empty).no_sides == "no figure in the frame");
    CHECK(judge_film(empty).sides.empty());
    FilmRecord tiny = empty;
    tiny.surfaces.push_back("hair");
    put_surface(tiny, 1, Normal(0, 0, 1), 0.5F, {5, 5, 10, 10});
    CHECK(judge_film(tiny).no_sides == "the figure has fewer than 60 pixels");
}

TEST_CASE("on the figure as by the meters, the error of a ratio needs four passes") {
    FilmRecord record = two_facets({"key", "fill", "edge"});
    record.run.passes = 2;
    const FilmStatistics s = judge_film(record);
    const Measure& ratio = ratio_named(s.ratios, "figure", "key : fill").value;
    CHECK(*ratio == doctest::Approx(4));
    CHECK_FALSE(ratio.shown_error());
}

TEST_CASE("after one pass a ratio is not known yet") {
    FilmRecord record = two_facets({"key", "fill", "edge"});
    forget_errors(record);
    const FilmStatistics s = judge_film(record);
    for (const Ratio& r : s.ratios) CHECK(r.value.why == kNotKnownYet);
    CHECK(s.hot_spots.why == kNotKnownYet);
    CHECK(s.tones.deep_shadow.why == kNotKnownYet);
}
