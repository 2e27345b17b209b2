// The statistics file: JSON, numbers finite, null where a thing could not be measured.
#pragma once

#include <cstdint>
#include <string>

#include "develop/judge_film.h"
#include "scene/scene.h"

namespace dapple {

// How the render went.
struct RenderReport {
    int passes = 0;
    double seconds = 0;
    uint64_t rays = 0;
    uint64_t seed = 1;
    uint64_t nonfinite_samples = 0;
    bool stopped_early = false;
    std::string transport = "full";
    int threads = 0;
};

std::string stats_text(const FilmStatistics& statistics,
                       const Scene& scene,
                       const RenderReport& report);

// Both throw FileError.
void write_stats(const std::string& path,
                 const FilmStatistics& statistics,
                 const Scene& scene,
                 const RenderReport& report);

// Luminance in cd/m², a line per row of the frame from the top, a column per pixel.
void write_luminance_csv(const std::string& path, const Film& film);

}  // namespace dapple
