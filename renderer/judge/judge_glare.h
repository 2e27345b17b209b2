// What the lens's own light costs: contrast in each part of the picture, and who makes it.
//
//   contrast = log2(lit / dark), stops: lit and dark are p95 and p05 of the luminances of a part
//   shadows raised = log2((dark + g) / dark),  g the median of the glare on the pixels <= p05
//   contrast lost = shadows raised - log2((lit + min(g, h)) / lit), h as g, on those >= p95
// both with g and h at least 0 in `contrast lost`                                         (E131)
// (our own measures; percentiles as in luminance_statistics.h.) An even veil costs what it takes
// from the ratio of lit to dark. Glare that falls mainly on what is lit widens that ratio, but
// shows nothing more of the part, so it is counted as the veil that the dark has: what is lost is
// never below 0, and it is 0 only where the dark gets no light. Standard errors from the two halves
// of the walks, as E162 with the whole part as one: the glare is far smoother than the film, and
// its own noise is left out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "develop/film_record.h"
#include "judge/measure.h"

namespace dapple {

struct GlareOfFixture {
    std::string fixture;
    double share = 0;  // of the light that the lens adds to the part
};

struct GlarePart {
    std::string name;
    int pixels = 0;
    Measure contrast_lost;                   // stops
    Measure shadows_raised;                  // stops
    double mean_glare = 0;                   // cd/m², added less taken
    std::vector<GlareOfFixture> by_fixture;  // most first
};

struct GlareJudgement {
    GlarePart picture;
    std::vector<GlarePart> regions;  // in the set's order
    // The picture's statistics with what the lens adds; those without are the film's own.
    double mean_luminance = 0;  // cd/m²
    double clipped_share = 0;
    double deep_shadow_share = 0;
};

// Nothing if the film has no glare. `left_out`: 1 for pixels of lamps' faces, which do not count.
std::optional<GlareJudgement> judge_glare(const FilmRecord& record,
                                          const std::vector<char>& left_out);

}  // namespace dapple
