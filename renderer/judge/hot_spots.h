// Hot spots: the brightest places outside the figure, which draw the eye away from it.
//
// The frame is cut into blocks of 1/120 of its width. A block counts by its mean luminance less two
// standard errors, so that a speck of noise is no hot spot. The brightest block is the first;
// blocks within an eighth of the frame's width of it belong to it. Lamps' own faces do not count.
#pragma once

#include <string>
#include <vector>

#include "develop/film_record.h"
#include "judge/measure.h"

namespace dapple {

inline constexpr size_t kMostHotSpots = 3;

struct HotSpot {
    int x = 0, y = 0;       // px, its brightest block's centre
    std::string where;      // "upper left"
    std::string surface;    // that is seen there; "" if none
    std::string fixture;    // that gives most of its light; "" if none
    double share = 0;       // of that fixture in its light
    Measure stops;          // about mid-grey, an 18 % card in the metered light
    Measure over_lit_side;  // stops over the mean of the figure's lit side
};

struct HotSpots {
    std::vector<HotSpot> list;  // brightest first
    std::string why;            // if they are not known
};

// `figure`: its pixels; `lit_side`: those of its lit side, may be empty.
HotSpots find_hot_spots(const FilmRecord& record,
                        const std::vector<char>& lamp_faces,
                        const std::vector<int32_t>& figure,
                        const std::vector<int32_t>& lit_side);

}  // namespace dapple
