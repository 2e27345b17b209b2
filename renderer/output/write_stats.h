// The statistics file: JSON with finite numbers, and null for what could not be measured.
#pragma once

#include <string>

#include "develop/judge_film.h"
#include "output/run_report.h"
#include "scene/in_frame.h"
#include "scene/scene.h"

namespace dapple {

std::string stats_json_text(const FilmStatistics& statistics,
                            const Scene& scene,
                            const RunReport& report,
                            const InFrame& in_frame = {});

// Both throw FileError.
void write_stats(const std::string& path,
                 const FilmStatistics& statistics,
                 const Scene& scene,
                 const RunReport& report,
                 const InFrame& in_frame = {});

// Luminance in cd/m²: one line for each row of the frame from the top, one column for each pixel.
void write_luminance_csv(const std::string& path, const Film& film);

}  // namespace dapple
