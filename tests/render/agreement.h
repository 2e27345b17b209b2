// Checks that two estimates of the same light agree, for each region of the frame and for each
// meter.
#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "geometry/world.h"
#include "render/read_meters.h"
#include "render/render_frame.h"
#include "render/test_scenes.h"

namespace dapple::test {

// Compares every region's mean in `a` and `b` at 3.3 standard errors. With six regions a correct
// program fails for one seed in 170. The standard error must be below `max_relative_error` of the
// mean, because a larger one would hide differences.
inline void check_agreement(const Scene& scene,
                            const RenderResult& a,
                            const RenderResult& b,
                            double max_relative_error) {
    CHECK(a.nonfinite_samples == 0);
    CHECK(b.nonfinite_samples == 0);
    for (size_t r = 0; r < scene.regions.size(); ++r) {
        const auto x = a.film.region_luminance(r);
        const auto y = b.film.region_luminance(r);
        const double se = std::hypot(x.stderr_of_mean, y.stderr_of_mean);
        CAPTURE(scene.title);
        CAPTURE(scene.regions[r].name);
        CAPTURE(x.mean);
        CAPTURE(y.mean);
        CAPTURE(se);
        CHECK(std::abs(x.mean - y.mean) < 3.3 * se);
        CHECK(se < max_relative_error * x.mean);
    }
}

inline RenderResult render(
    const Scene& scene, Transport transport, int passes, double light_walks, uint64_t seed) {
    const World world(scene);
    RenderOptions options;
    options.transport = transport;
    options.passes = passes;
    options.light_walks_per_pixel = light_walks;
    options.seed = seed;
    options.footprint_px = 0;
    return render_frame(scene, world, options);
}

// The same for every meter's reading.
inline void check_agreement(const Scene& scene,
                            const MeterResult& a,
                            const MeterResult& b,
                            double max_relative_error) {
    CHECK(a.nonfinite_samples == 0);
    CHECK(b.nonfinite_samples == 0);
    for (size_t m = 0; m < scene.meters.size(); ++m) {
        const Reading& x = a.readings[m];
        const Reading& y = b.readings[m];
        const double se = std::hypot(x.lux_stderr, y.lux_stderr);
        CAPTURE(scene.meters[m].name);
        CAPTURE(x.lux);
        CAPTURE(y.lux);
        CAPTURE(se);
        CHECK(std::abs(x.lux - y.lux) < 3.3 * se);
        CHECK(se < max_relative_error * x.lux);
    }
}

inline Meter meter_at(const std::string& name, const Point& position, const Point& facing) {
    Meter m;
    m.name = name;
    m.position = position;
    m.facing = glm::normalize(facing - position);
    return m;
}

// A point, a disc, a dome and a rectangle, at places that get light through glass, cloth and the
// pane of room_with_everything().
inline void add_meters(Scene& scene) {
    scene.meters.push_back(meter_at("point", Point(0.5F, -0.3F, 0.8F), Point(0, -1, -1)));
    Meter disc = meter_at("disc under the ball", Point(0.1F, -1.4F, -0.1F), Point(0.1F, 0, -0.1F));
    disc.diameter = 0.2F;
    scene.meters.push_back(disc);
    Meter dome = meter_at("dome", Point(-0.6F, -0.9F, 0.3F), Point(-0.7F, 0.3F, -0.6F));
    dome.receptor = ReceptorKind::kDome;
    dome.diameter = 0.1F;
    scene.meters.push_back(dome);
    Meter wall = meter_at("wall", Point(0, 0, -2.499F), Point(0, 0, 0));
    wall.size = Vec2(2, 1);
    scene.meters.push_back(wall);
}

inline MeterResult read_meters_by(const Scene& scene,
                                  Transport transport,
                                  int passes,
                                  uint64_t seed,
                                  double light_walks_per_meter_walk = 16) {
    const World world(scene);
    MeterOptions options;
    options.transport = transport;
    options.passes = passes;
    options.seed = seed;
    options.light_walks_per_meter_walk = light_walks_per_meter_walk;
    return read_meters(scene, world, options);
}

}  // namespace dapple::test
