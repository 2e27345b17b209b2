#include "transport/camera_walk.h"

#include "transport/through_lens.h"

namespace dapple {

int hero_of_pixel_walk(int x, int y, uint32_t in_pass) {
    static_assert(kSpectrumSize == 8);
    const uint32_t spread = (in_pass & 1U) << 2U | (in_pass & 2U) | (in_pass & 4U) >> 2U;
    const auto place = static_cast<uint32_t>(3 * x + y);
    return static_cast<int>((spread + place) % 8U);
}

void trace_camera_walk(const Stage& stage,
                       int x,
                       int y,
                       PixelWalk pixel_walk,
                       const SensorLight& light,
                       WalkCounts& counts) {
    const Camera& camera = stage.scene.camera;
    const auto pixel =
        static_cast<uint64_t>(y) * static_cast<uint64_t>(camera.width) + static_cast<uint64_t>(x);
    const uint64_t name = mix_bits(pixel, static_cast<uint64_t>(Purpose::kCameraWalk));
    // The walks of one pixel use successive points of one sequence.
    SensorNumbers numbers(RandomStream(stage.seed, pixel_walk.number, pixel, Purpose::kCameraWalk),
                          pixel_walk.number,
                          mix_bits(stage.seed, name));
    const auto u = numbers.start();
    SensorWalk sensor;
    Walk& walk = sensor.walk;
    walk.light.hero = hero_of_pixel_walk(x, y, pixel_walk.in_pass);
    const Lens::RaySample first =
        stage.lens.sample_ray(Vec2(static_cast<float>(x) + u[0], static_cast<float>(y) + u[1]),
                              u[2],
                              u[3],
                              lens_wavelength(stage, walk.light.hero));
    if (!(first.pdf_direction > 0)) return;  // a lens of glass stops the ray
    walk.ray = first.ray;
    walk.media = stage.start.lens;
    walk.light.multiply(through_port(stage));
    if (stage.lens.is_glass()) {
        walk.light.multiply(first.value * through_lens(stage, first.passed, walk.light));
        walk.light.monochromatic = stage.lens.splits_colours();
    }
    walk.weights.join = 1.0F / first.pdf_direction;
    follow_sensor_walk(stage, sensor, numbers, light);
    counts.rays += walk.rays;
    counts.nonfinite += walk.nonfinite;
}

}  // namespace dapple
