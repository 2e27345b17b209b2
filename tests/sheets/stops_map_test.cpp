#include "sheets/stops_map.h"

#include <doctest/doctest.h>

#include <cmath>

#include "judge/known_films.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// From four stops under mid-grey to three over it, from left to right.
FilmRecord ramp(int width, int height, const std::string& title) {
    const double grey = 0.18 * white_luminance(Camera{});
    FilmRecord record = known_film(width, height, {"key"}, [=](int x, int, size_t) {
        return grey * std::exp2(-4 + 7.0 * x / width);
    });
    record.title = title;
    return record;
}

int labels(const Page& page, const std::string& text) {
    int count = 0;
    for (const Page::PlacedText& placed : page.texts()) count += placed.text == text ? 1 : 0;
    return count;
}

}  // namespace

TEST_CASE("every stop of a ramp has a labelled line, beside the legend's label") {
    const Page page = make_stops_map(ramp(240, 160, "Ramp"));
    for (const char* stop : {"−3", "−2", "−1", "0", "+1", "+2"}) {
        CAPTURE(stop);
        CHECK(labels(page, stop) == 2);
    }
    CHECK(labels(page, "white") == 1);
    CHECK(labels(page, "−5") == 1);  // darker than anything here: in the legend alone
}

TEST_CASE("no text of the stops map covers another, also with a long title") {
    const std::string words = "a very long title of an evening in a hall, ";
    for (const std::string& title : {std::string(), words + words + words + words}) {
        const Page page = make_stops_map(ramp(120, 80, title));
        const auto& texts = page.texts();
        for (size_t i = 0; i < texts.size(); ++i) {
            CHECK(PageBox{DVec2(0), page.size()}.contains(texts[i].box));
            for (size_t j = 0; j < i; ++j) {
                CAPTURE(texts[i].text);
                CAPTURE(texts[j].text);
                CHECK_FALSE(texts[i].box.overlaps(texts[j].box));
            }
        }
    }
}

TEST_CASE("an unlit frame has a map without lines") {
    const FilmRecord dark = known_film(60, 40, {"key"}, [](int, int, size_t) { return 0.0; });
    CHECK(labels(make_stops_map(dark), "0") == 1);
}
