#include "output/judge_text.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>

#include "judge/known_films.h"
#include "output/text_table.h"

using namespace dapple;
using namespace dapple::test;
using nlohmann::json;

namespace {

// A set of the size that a night has: nine fixtures, four meters, six regions, a figure.
FilmRecord large_record() {
    std::vector<std::string> names = {"key",
                                      "fill",
                                      "edge left",
                                      "moon",
                                      "net",
                                      "corner",
                                      "slip",
                                      "background wash",
                                      "practical"};
    const double white = white_luminance(Camera{});
    FilmRecord record = known_film(480, 320, names, [&](int x, int y, size_t f) {
        return white * (0.01 + 0.05 * ((x / 9 + y / 7 + static_cast<int>(f)) % 2));
    });
    record.title = "An old dance hall with a rather long name, second evening";
    record.surfaces.push_back("figure skin");
    put_surface(record, 1, Normal(0, 0, 1), 0.5F, {200, 100, 240, 180});
    put_surface(record, 1, Normal(1, 0, 0), 0.5F, {240, 100, 280, 180});
    for (int i = 0; i < 6; ++i) {
        const std::string name = "back wall behind " + std::to_string(i);
        add_region(record, name, 10 + 70 * i, 10, 70 + 70 * i, 90);
    }
    record.regions[2].pixels.clear();
    for (int i = 0; i < 4; ++i) {
        std::vector<double> lux(names.size(), 12.5);
        lux[static_cast<size_t>(i)] = 400;
        const Point at(0, 1.5F, 0.1F * static_cast<float>(i));
        add_meter(record, "face, side number " + std::to_string(i), at, lux, 3);
    }
    return record;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::istringstream stream(text);
    std::vector<std::string> lines;
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

// Keys that other tools rely on, as JSON pointers.
constexpr const char* kJudgeKeys[] = {"/light/0/meter",           "/light/0/f_number",
                                      "/light/0/f_stop",          "/light/0/stops_from_camera",
                                      "/ratios/0/name",           "/ratios/0/value",
                                      "/ratios/0/stderr",         "/ratios/0/definition",
                                      "/regions/0/name",          "/regions/0/pixels",
                                      "/regions/0/texture_stops", "/regions/0/texture_stderr",
                                      "/regions/0/texture_word",  "/regions/0/patch_cm",
                                      "/regions/0/cover",         "/regions/0/deep_shadow_share",
                                      "/regions/0/clipped_share", "/in_frame",
                                      "/hot_spots/0/x",           "/hot_spots/0/y",
                                      "/hot_spots/0/stops",       "/hot_spots/0/fixture"};

}  // namespace

TEST_CASE("nine fixtures, six regions and four meters fit on one screen") {
    const FilmRecord record = large_record();
    const std::vector<std::string> lines = lines_of(judge_text(judge_film(record), record));
    CHECK(lines.size() <= 48);
    for (const std::string& line : lines) {
        CAPTURE(line);
        CHECK(columns(line) <= 100);
    }
}

TEST_CASE("the screen says what is not known, and why") {
    FilmRecord record = large_record();
    const std::string text = judge_text(judge_film(record), record);
    CHECK(text.find("no pixels in the frame: back wall behind 2") != std::string::npos);
    forget_errors(record);
    const std::string one = judge_text(judge_film(record), record);
    // Once for all.
    const size_t said = one.find("Not known yet: errors, ratios, regions");
    CHECK(said != std::string::npos);
    CHECK(one.find("ot known yet", said + 5) == std::string::npos);
    CHECK(one.find("RATIOS") == std::string::npos);
    CHECK(one.find("±") == std::string::npos);
    CHECK(one.find(" 0 %") == std::string::npos);  // never 0 for what is not known
}

TEST_CASE("an empty set can be judged") {
    const FilmRecord record = known_film(20, 10, {}, [](int, int, size_t) { return 0.0; });
    const std::string text = judge_text(judge_film(record), record);
    CHECK(text.find("no [[meter]]") != std::string::npos);
    CHECK_NOTHROW(json::parse(judge_json_text(judge_film(record), record)));
}

TEST_CASE("the judgement as JSON has every key that others rely on") {
    const FilmRecord record = large_record();
    const json j = json::parse(judge_json_text(judge_film(record), record));
    for (const char* pointer : kJudgeKeys) {
        CAPTURE(pointer);
        CHECK(j.contains(json::json_pointer(pointer)));
    }
    CHECK(j["light"].size() == 4);
    CHECK(j["regions"][2]["texture_stops"].is_null());
    CHECK(j["regions"][2]["deep_shadow_share"].is_null());
    CHECK(j["regions"][2]["why"]["texture_stops"] == "no pixels in the frame");
    CHECK(j["more_is"]["texture_stops"] == "more is more broken up");
}

TEST_CASE("after one pass the JSON has null and the reason, never 0") {
    FilmRecord record = large_record();
    forget_errors(record);
    const json j = json::parse(judge_json_text(judge_film(record), record));
    CHECK(j["light"][0]["lux_stderr"].is_null());
    CHECK(j["ratios"][0]["value"].is_null());
    CHECK(j["ratios"][0]["why"].get<std::string>().starts_with("not known yet"));
    CHECK(j["regions"][0]["texture_stops"].is_null());
    CHECK(j["regions"][0]["mean_stderr"].is_null());
    CHECK(j["regions"][0]["why"]["clipped_share"].get<std::string>().starts_with("not known yet"));
    CHECK(j["hot_spots"].is_null());
    CHECK(j["hot_spots_why"].get<std::string>().starts_with("not known yet"));
}

TEST_CASE(
    "key to fill by the meters and on the figure are named, and a contradiction is explained") {
    // On the figure the key gives four times the fill.
    FilmRecord record = known_film(60, 40, {"key", "fill"}, [&](int x, int, size_t fixture) {
        return fixture == 0 ? (x < 30 ? 4.0 : 0.0) : 1.0;
    });
    record.surfaces.push_back("figure skin");
    put_surface(record, 1, Normal(-0.6F, 0, 0.8F), 0.5F, {10, 10, 30, 30});
    put_surface(record, 1, Normal(0.6F, 0, 0.8F), 0.5F, {30, 10, 50, 30});
    FilmRecord agreeing = record;
    add_meter(record, "cheek", Point(0), {800, 100}, 1);
    add_meter(agreeing, "cheek", Point(0), {500, 100}, 1);
    const std::string text = judge_text(judge_film(record), record);
    CHECK(text.find("  by the meters: key alone at \"cheek\" : fill alone") != std::string::npos);
    CHECK(text.find("  on the figure: key alone on the lit side : fill alone") !=
          std::string::npos);
    CHECK(text.find("They are 1.0 stops apart: meters stand elsewhere") != std::string::npos);
    // 5 and 4 are a third of a stop apart.
    CHECK(judge_text(judge_film(agreeing), agreeing).find("stops apart") == std::string::npos);
}

TEST_CASE("the ± of meters needs four passes, and is widened after so few") {
    FilmRecord record = large_record();
    // 500 lx with a standard error of 27 lx: 0.078 stops, of four passes 0.093.
    for (double& c : record.meters[0].lux.covariances) c *= 9;
    const auto text_of = [&](int passes) {
        record.run.passes = passes;
        return judge_text(judge_film(record), record);
    };
    const std::string three = text_of(3);
    CHECK(three.find("The ± of meters is not known yet: it needs 4 passes.") != std::string::npos);
    const auto line_with = [](const std::string& text, const std::string& words) {
        for (const std::string& line : lines_of(text)) {
            if (line.find(words) != std::string::npos) return line;
        }
        return std::string();
    };
    const std::string of_three = line_with(three, "face, side number 0  ");
    CHECK(of_three.find("±") == std::string::npos);
    const std::string four = line_with(text_of(4), "face, side number 0  ");
    const std::string forty = line_with(text_of(40), "face, side number 0  ");
    CHECK(four.find("± 0.09") != std::string::npos);
    CHECK(forty.find("± 0.08") != std::string::npos);
}
