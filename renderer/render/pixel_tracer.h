// Traces the camera walks of pixels, one after the other.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "render/film_sink.h"
#include "render/glint_map.h"
#include "transport/camera_walk.h"

namespace dapple {

// Which camera walks each pixel has in a pass.
struct CameraPlan {
    std::vector<uint8_t> walks;  // by pixel; fewer in the first pass (schedule.h)
    GlintMap glints;             // with more walks of some pixels
};

class PixelTracer {
  public:
    PixelTracer(const Stage& stage, const CameraPlan& plan, FilmSink& sink);
    PixelTracer(const PixelTracer&) = delete;  // its spans point into it
    PixelTracer& operator=(const PixelTracer&) = delete;

    // Adds the pixel's luminance to the film.
    void trace(int pixel);
    const WalkCounts& counts() const { return counts_; }

  private:
    void trace_evenly(int pixel, uint32_t walks, uint32_t first);
    // The same with the walks of the pixel's glints.
    void trace_with_glints(int pixel, uint32_t walks, uint32_t first);
    void trace_glint(int pixel, size_t number, const GlintMap::OfPixel& of_pixel);
    // The number of walks over the sum of E85.
    float weight(const LensStart& start) const;
    // Adds what the last walk has found to the pixel.
    void add_walk(float weight);
    void put_on_film(int pixel);

    // What walks have found: by fixture, for the kinds of haze's glow and for all else.
    static constexpr size_t kLists = HazeGlow::kKinds + 1;
    using Lists = std::array<std::vector<Spectrum>, kLists>;
    static constexpr size_t kAllElse = HazeGlow::kKinds;
    static SensorLight spans_of(Lists& lists);

    const Stage& stage_;
    const CameraPlan& plan_;
    FilmSink& sink_;
    Lists of_pixel_;  // those of the glow are empty if the sink keeps none
    Lists of_walk_;   // the same of one walk
    SensorLight pixel_light_;
    SensorLight walk_light_;
    std::span<const GlintMap::OfPixel> glints_;  // of the pixel
    float even_walks_ = 1;                       // of the pixel
    WalkCounts counts_;
};

}  // namespace dapple
