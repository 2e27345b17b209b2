#include "transport/camera_walk.h"

#include "transport/through_lens.h"

namespace dapple {

int hero_place(int x, int y, uint32_t number) {
    static_assert(kSpectrumSize == 8);
    const uint32_t spread = (number & 1U) << 2U | (number & 2U) | (number & 4U) >> 2U;
    const auto first = static_cast<uint32_t>(3 * x + y);
    return static_cast<int>((spread + first) % 8U);
}

namespace {

uint64_t pixel_at(const Stage& stage, int x, int y) {
    return static_cast<uint64_t>(y) * static_cast<uint64_t>(stage.scene.camera.width) +
           static_cast<uint64_t>(x);
}

// The walks of one name use successive points of one sequence.
SensorNumbers numbers_of(const Stage& stage, uint32_t number, uint64_t name, Purpose purpose) {
    return SensorNumbers(RandomStream(stage.seed, number, name, purpose),
                         number,
                         mix_bits(stage.seed, mix_bits(name, static_cast<uint64_t>(purpose))));
}

void follow_from(const Stage& stage,
                 const LensStart& start,
                 SensorNumbers& numbers,
                 int splits,
                 const SensorLight& light,
                 WalkCounts& counts) {
    SensorWalk sensor;
    Walk& walk = sensor.walk;
    walk.light.hero = start.hero;
    const Lens::RaySample first = stage.lens.sample_ray(
        start.raster, start.aperture.x, start.aperture.y, lens_wavelength(stage, start.hero));
    if (!(first.pdf_direction > 0)) return;  // a lens of glass stops the ray
    walk.ray = first.ray;
    walk.media = stage.start.lens;
    walk.light.multiply(through_port(stage));
    if (stage.lens.is_glass()) {
        walk.light.multiply(first.value * through_lens(stage, first.passed, walk.light));
        walk.light.monochromatic = stage.lens.splits_colours();
    }
    walk.weights.join = 1.0F / first.pdf_direction;
    follow_sensor_walk(stage, sensor, numbers, light, splits);
    counts.rays += walk.rays;
    counts.nonfinite += walk.nonfinite;
}

}  // namespace

LensStart start_of_camera_walk(const Stage& stage, int x, int y, PixelWalk pixel_walk) {
    const auto shortest = static_cast<uint64_t>(stage.wavelength_coordinate.shortest);
    // With another seed a pixel begins with another colour, so that no colour is favoured.
    const auto place = static_cast<uint64_t>(hero_place(x, y, pixel_walk.number)) +
                       mix_bits(stage.seed, static_cast<uint64_t>(Purpose::kCameraWalk)) % 8U;
    const auto u =
        numbers_of(stage, pixel_walk.number, pixel_at(stage, x, y), Purpose::kCameraWalk).start();
    return {Vec2(static_cast<float>(x) + u[0], static_cast<float>(y) + u[1]),
            Vec2(u[2], u[3]),
            static_cast<int>((shortest + place) % kSpectrumSize)};
}

void trace_camera_walk(const Stage& stage,
                       int x,
                       int y,
                       PixelWalk pixel_walk,
                       const SensorLight& light,
                       WalkCounts& counts) {
    SensorNumbers numbers =
        numbers_of(stage, pixel_walk.number, pixel_at(stage, x, y), Purpose::kCameraWalk);
    const LensStart start = start_of_camera_walk(stage, x, y, pixel_walk);
    follow_from(stage, start, numbers, pixel_walk.splits, light, counts);
}

void trace_glint_walk(const Stage& stage,
                      const LensStart& start,
                      uint64_t glint,
                      PixelWalk pixel_walk,
                      const SensorLight& light,
                      WalkCounts& counts) {
    const auto x = static_cast<int>(start.raster.x);
    const auto y = static_cast<int>(start.raster.y);
    const uint64_t name = mix_bits(pixel_at(stage, x, y), glint);
    SensorNumbers numbers = numbers_of(stage, pixel_walk.number, name, Purpose::kGlintWalk);
    follow_from(stage, start, numbers, pixel_walk.splits, light, counts);
}

}  // namespace dapple
