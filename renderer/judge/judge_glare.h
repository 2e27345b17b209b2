// What the lens's own light costs: contrast in each part of the picture, and who makes it.
//
//   contrast = log2(p95/p05), stops, of the luminances of a part (percentiles)
//   contrast lost = contrast without glare - contrast with it                               (E124)
//   shadows raised = log2(p05 with glare / p05 without), stops
// (our own measures; percentiles as in luminance_statistics.h.) Standard errors from the two halves
// of the walks, as E147 with the whole part as one: the glare is far smoother than the film, and
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
