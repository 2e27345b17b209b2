#include "render/pixel_tracer.h"

#include "math/sequences.h"
#include "math/warps.h"
#include "render/schedule.h"

namespace dapple {

namespace {

// Of the walks of a pixel with glints. The light of a lamp's image can be a weak branch among
// several.
constexpr int kSplitsAtGlint = 3;

GlintShift shift_of(const Stage& stage, const LensStart& start) {
    return {stage.wavelength_coordinate[start.hero],
            sample_disk(start.aperture.x, start.aperture.y)};
}

}  // namespace

SensorLight PixelTracer::spans_of(Lists& lists) {
    return {.by_fixture = lists[kAllElse],
            .near_glow = lists[HazeGlow::kNear],
            .far_glow = lists[HazeGlow::kFar],
            .glow_on_surface = lists[HazeGlow::kOnSurface]};
}

PixelTracer::PixelTracer(const Stage& stage, const CameraPlan& plan, FilmSink& sink)
    : stage_(stage), plan_(plan), sink_(sink) {
    of_pixel_[kAllElse].resize(stage.emitters.size());
    if (sink.keeps_glow()) of_pixel_.fill(of_pixel_[kAllElse]);
    of_walk_ = of_pixel_;
    pixel_light_ = spans_of(of_pixel_);
    walk_light_ = spans_of(of_walk_);
}

void PixelTracer::trace(int pixel) {
    const WalkNumbers numbers =
        numbers_in_pass(plan_.walks[static_cast<size_t>(pixel)], stage_.pass);
    glints_ = plan_.glints.of(pixel);
    if (glints_.empty()) {
        trace_evenly(pixel, numbers.count, numbers.first);
    } else {
        trace_with_glints(pixel, numbers.count, numbers.first);
    }
    put_on_film(pixel);
}

void PixelTracer::trace_evenly(int pixel, uint32_t walks, uint32_t first) {
    const int width = stage_.scene.camera.width;
    for (uint32_t i = 0; i < walks; ++i) {
        trace_camera_walk(stage_, pixel % width, pixel / width, {first + i}, pixel_light_, counts_);
    }
    const float scale = 1.0F / static_cast<float>(walks);
    for (std::vector<Spectrum>& list : of_pixel_) {
        for (Spectrum& light : list) light *= scale;
    }
}

void PixelTracer::trace_with_glints(int pixel, uint32_t walks, uint32_t first) {
    const int width = stage_.scene.camera.width;
    const int x = pixel % width;
    const int y = pixel / width;
    even_walks_ = static_cast<float>(walks);
    for (uint32_t i = 0; i < walks; ++i) {
        const PixelWalk walk{first + i, kSplitsAtGlint};
        trace_camera_walk(stage_, x, y, walk, walk_light_, counts_);
        add_walk(weight(start_of_camera_walk(stage_, x, y, walk)));
    }
    for (size_t g = 0; g < glints_.size(); ++g) trace_glint(pixel, g, glints_[g]);
}

void PixelTracer::trace_glint(int pixel, size_t number, const GlintMap::OfPixel& of_pixel) {
    const int width = stage_.scene.camera.width;
    const Glint& glint = plan_.glints.glint(of_pixel);
    const WalkNumbers numbers = numbers_in_pass(of_pixel.walks, stage_.pass);
    const uint64_t name = mix_bits(static_cast<uint64_t>(pixel), number);
    const uint64_t sequence = mix_bits(mix_bits(stage_.seed, name), 1);
    for (uint32_t i = 0; i < numbers.count; ++i) {
        const uint32_t index = numbers.first + i;
        const auto u = sobol_owen_4d(index, static_cast<uint32_t>(sequence));
        const auto v = sobol_owen_4d(index, static_cast<uint32_t>(sequence >> 32U));
        LensStart start;
        start.aperture = Vec2(v[0], v[1]);
        start.hero = static_cast<int>(v[2] * kSpectrumSize);
        start.raster = glint.sample(shift_of(stage_, start), u[0], u[1], u[2]);
        const glm::ivec2 at(glm::floor(start.raster));
        if (at.x != pixel % width || at.y != pixel / width) continue;
        trace_glint_walk(stage_, start, number, {index, kSplitsAtGlint}, walk_light_, counts_);
        add_walk(weight(start));
    }
}

float PixelTracer::weight(const LensStart& start) const {
    const GlintShift shift = shift_of(stage_, start);
    float sum = even_walks_;
    for (const GlintMap::OfPixel& of_pixel : glints_) {
        const auto walks = static_cast<float>(numbers_in_pass(of_pixel.walks, stage_.pass).count);
        sum += walks * plan_.glints.glint(of_pixel).density(start.raster, shift);
    }
    return 1.0F / sum;  // (E85)
}

void PixelTracer::add_walk(float weight) {
    for (size_t l = 0; l < kLists; ++l) {
        for (size_t f = 0; f < of_walk_[l].size(); ++f) {
            of_pixel_[l][f] += of_walk_[l][f] * weight;
            of_walk_[l][f] = Spectrum(0.0F);
        }
    }
}

void PixelTracer::put_on_film(int pixel) {
    for (size_t l = 0; l < kLists; ++l) {
        for (size_t f = 0; f < of_pixel_[l].size(); ++f) {
            Spectrum& light = of_pixel_[l][f];
            // A non-finite sum is not black, so the film counts it.
            if (light.is_black()) continue;
            const auto fixture = static_cast<int>(f);
            if (l == kAllElse) {
                sink_.add_pixel(pixel, fixture, light);
            } else {
                sink_.add_glow(static_cast<HazeGlow::Kind>(l), pixel, fixture, light);
            }
            light = Spectrum(0.0F);
        }
    }
}

}  // namespace dapple
