// Everything that the statistics file reports about a film: frame, stops, fixtures, meters,
// regions.
//
//   share of a fixture = its mean luminance over the frame / that of all light            (E110)
// Standard errors come from the spread over passes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "develop/film_record.h"
#include "develop/judge_meters.h"
#include "develop/luminance_statistics.h"
#include "develop/pattern.h"

namespace dapple {

struct FixtureShare {
    std::string name;
    double share = 0;           // 0 to 1
    double mean_luminance = 0;  // cd/m², over the frame
};

struct RegionJudgement {
    std::string name;
    int pixels = 0;
    double mean_luminance = 0;  // cd/m²
    double mean_stderr = 0;
    std::optional<Uniformity> uniformity;
    std::optional<Pattern> pattern;
};

struct FilmStatistics {
    double white_luminance = 0;  // cd/m²
    LuminanceStatistics luminance;
    StopsStatistics stops;
    std::vector<FixtureShare> fixtures;    // in the scene's order
    std::vector<MeterJudgement> meters;    // in the scene's order
    std::vector<RegionJudgement> regions;  // in the same order
};

// If the record has no first hits, patches have no size in cm.
FilmStatistics judge_film(const FilmRecord& record);

}  // namespace dapple
