// Pixels of a record cut out as a region, as measures take it.
#pragma once

#include <span>
#include <vector>

#include "develop/film_record.h"
#include "judge/region_image.h"

namespace dapple {

// Darker pixels count as 12 stops under white in logarithms.
inline constexpr double kFloorOverWhite = 0x1p-12;

// `left_out`: by pixel of the frame, 1 where it does not count; empty: all count.
RegionImage cut_out(const FilmRecord& record,
                    std::span<const int32_t> pixels,
                    const std::vector<char>& left_out);

// The whole frame.
RegionImage cut_frame(const FilmRecord& record, const std::vector<char>& left_out);

}  // namespace dapple
