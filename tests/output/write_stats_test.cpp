#include "output/write_stats.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "develop/exposure.h"
#include "output/output_fixtures.h"

using namespace dapple;
using nlohmann::json;

namespace {

// Keys of the statistics file that others rely on, as JSON pointers.
constexpr const char* kKeys[] = {"/passes",
                                 "/seconds",
                                 "/rays",
                                 "/seed",
                                 "/nonfinite_samples",
                                 "/unfinished",
                                 "/exposure/white_luminance_cd_m2",
                                 "/luminance/min",
                                 "/luminance/max",
                                 "/luminance/mean",
                                 "/luminance/mean_stderr",
                                 "/luminance/median",
                                 "/luminance/p01",
                                 "/luminance/p05",
                                 "/luminance/p95",
                                 "/luminance/p99",
                                 "/stops/histogram",
                                 "/stops/clipped_share",
                                 "/stops/deep_shadow_share",
                                 "/fixtures/0/name",
                                 "/fixtures/0/share",
                                 "/fixtures/0/mean_luminance",
                                 "/meters",
                                 "/regions/0/name",
                                 "/regions/0/pixels",
                                 "/regions/0/mean_luminance",
                                 "/regions/0/mean_stderr",
                                 "/regions/0/uniformity",
                                 "/regions/0/texture_stops",
                                 "/regions/0/patch_cm",
                                 "/regions/0/cover"};

RunReport a_report() {
    RunReport report;
    report.passes = 2;
    report.seconds = 1.5;
    report.rays = 12345678901ULL;
    report.seed = 0xFFFFFFFFFFFFFFFFULL;
    report.nonfinite_samples = 3;
    report.transport = "walks";
    report.threads = 2;
    return report;
}

}  // namespace

TEST_CASE("the statistics file has every key that others rely on") {
    const TemporaryFolder folder;
    const Scene scene = boat_scene();
    const FilmRecord record = boat_record(boat_hits(), a_report());
    const FilmStatistics statistics = judge_film(record);
    write_stats(folder / "boat.stats.json", statistics, record);
    const json j = json::parse(get_file(folder / "boat.stats.json"));

    for (const char* pointer : kKeys) {
        CAPTURE(pointer);
        CHECK(j.contains(json::json_pointer(pointer)));
    }
    CHECK(j["rays"] == 12345678901ULL);
    CHECK(j["seed"] == 0xFFFFFFFFFFFFFFFFULL);
    CHECK(j["transport"] == "walks");
    CHECK(j["exposure"]["white_luminance_cd_m2"] == white_luminance(scene.camera));
    CHECK(j["luminance"]["mean"] == statistics.luminance.mean);
    CHECK(j["fixtures"].size() == 2);
    CHECK(j["fixtures"][0]["share"].get<double>() + j["fixtures"][1]["share"].get<double>() ==
          doctest::Approx(1));
    CHECK(j["stops"]["histogram"].size() == StopsStatistics::kBins);
    CHECK(j["meters"].is_array());
    CHECK(j["ratios"].size() == statistics.ratios.size());
    CHECK((j["sides"].is_null() ? j["sides_why"].is_string() : j["sides"].size() == 2));
    CHECK(j["regions"][0]["uniformity"] == *statistics.regions[0].uniformity);
}

TEST_CASE("what could not be measured is null, and so is infinity") {
    FilmStatistics statistics;
    statistics.luminance.max = std::numeric_limits<double>::infinity();
    statistics.luminance.mean = std::nan("");
    RegionJudgement tiny;
    tiny.name = "tiny";
    tiny.pixels = 1;
    tiny.mean_luminance = Measure::known(2.0, 0.1);
    tiny.uniformity = Measure::unknown("too small");
    statistics.regions.push_back(tiny);
    const std::string text = stats_json_text(statistics, boat_record({}, a_report()));
    const json j = json::parse(text);
    CHECK(j["luminance"]["max"].is_null());
    CHECK(j["luminance"]["mean"].is_null());
    CHECK(j["luminance"]["mean_stderr"].is_null());
    CHECK(j["regions"][0]["uniformity"].is_null());
    CHECK(j["regions"][0]["why"]["uniformity"] == "too small");
    CHECK(j["regions"][0]["texture_stops"].is_null());
    CHECK(j["regions"][0]["patch_cm"].is_null());
    CHECK(j["regions"][0]["cover"].is_null());
    CHECK(j["regions"][0]["mean_luminance"] == 2.0);
}

TEST_CASE("a name that is not UTF-8 does not break the file") {
    FilmRecord record = boat_record();
    record.title = "shed \xff";
    CHECK_NOTHROW(json::parse(stats_json_text({}, record)));
}

TEST_CASE("the luminance table has the film's numbers in rows and columns") {
    const TemporaryFolder folder;
    const Film film = boat_film();
    write_luminance_csv(folder / "boat.luminance.csv", boat_record());
    std::istringstream table(get_file(folder / "boat.luminance.csv"));
    std::string line;
    int rows = 0;
    for (; std::getline(table, line); ++rows) {
        std::istringstream cells(line);
        std::string cell;
        int x = 0;
        for (; std::getline(cells, cell, ','); ++x) {
            // Six digits are written.
            CHECK(std::stod(cell) ==
                  doctest::Approx(film.resolve(rows * kTestWidth + x).y).epsilon(1e-5));
        }
        CHECK(x == kTestWidth);
    }
    CHECK(rows == kTestHeight);
}
