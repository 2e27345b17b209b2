// The statistics file: JSON with finite numbers, and null for what could not be measured.
#pragma once

#include <string>

#include "judge/judge_film.h"

namespace dapple {

std::string stats_json_text(const FilmStatistics& statistics, const FilmRecord& record);

// Both throw FileError.
void write_stats(const std::string& path,
                 const FilmStatistics& statistics,
                 const FilmRecord& record);

// Luminance in cd/m²: one line for each row of the frame from the top, one column for each pixel.
void write_luminance_csv(const std::string& path, const FilmRecord& record);

}  // namespace dapple
