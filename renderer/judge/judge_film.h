// Everything that is reported about a film: light, ratios, regions, shadows, hot spots. The same
// for a film that was just rendered, one read from its EXR, and one that was rebalanced.
//
//   share of a fixture = its mean luminance over the picture / that of all light          (E160)
// The picture is the frame without the pixels that show a lamp's own face (FirstHits::lamp): they
// count in no share, no mean and no measure. Texture, patches and cover also leave out the pixels
// at the edges of things (surface_edges.h). Standard errors come from the spread over passes, or
// from two halves of the walks (region_image.h).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "develop/film_record.h"
#include "judge/hot_spots.h"
#include "judge/judge_glare.h"
#include "judge/judge_meters.h"
#include "judge/luminance_statistics.h"
#include "judge/pattern.h"
#include "judge/ratios.h"
#include "judge/tones.h"

namespace dapple {

struct FixtureShare {
    std::string name;
    double share = 0;           // 0 to 1
    double mean_luminance = 0;  // cd/m², over the picture
};

// A region of the set, or a side of the figure.
struct RegionJudgement {
    std::string name;
    int pixels = 0;
    Measure mean_luminance;  // cd/m²
    Measure uniformity;
    Pattern pattern;
    Tones tones;
};

struct LampFacesJudgement {
    int pixels = 0;
    double share = 0;  // of all light in the frame
};

struct FilmStatistics {
    double white_luminance = 0;  // cd/m²
    bool noise_known = false;    // false after a single pass: no errors
    int passes = 0;
    LuminanceStatistics luminance;
    StopsStatistics stops;
    Tones tones;  // of the picture
    // Share of the frame's light that the clean frame does not show (clean/sure_light.h). Nothing:
    // there is no clean frame.
    std::optional<double> left_out_of_clean;
    LampFacesJudgement lamp_faces;
    std::vector<FixtureShare> fixtures;    // in the scene's order
    std::vector<MeterJudgement> meters;    // in the scene's order
    std::vector<RegionJudgement> regions;  // in the scene's order
    std::string key, fill;                 // names of the fixtures; "" for none
    std::vector<RegionJudgement> sides;    // of the figure: lit, shadow; empty without a figure
    std::string no_sides;                  // why there are none
    std::vector<Ratio> ratios;
    HotSpots hot_spots;
    std::optional<GlareJudgement> glare;  // nothing: the lens adds nothing

    // A meter's stops from the camera's setting, with their error; unknown without light.
    Measure stops_of(const MeterJudgement& meter) const;
};

// If the record has no first hits, patches have no size in cm and lamps' faces are not known.
FilmStatistics judge_film(const FilmRecord& record);

}  // namespace dapple
