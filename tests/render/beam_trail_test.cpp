// The trail of one number from the set file to a pixel: beam_angle_deg.
//
// A spot looks straight down at a Lambertian floor of reflectance ρ in a black room. Straight below
// the spot L = ρ/π · I0/h², I0 = Φ / ∫I/I0 dω. The test integrates the beam law by Simpson's rule.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "base/problems.h"
#include "geometry/world.h"
#include "render/render_frame.h"
#include "scene/build_scene.h"
#include "set/read_set.h"

using namespace dapple;

namespace {

constexpr double kLumens = 1000;
constexpr double kHeight = 2.5;  // m
constexpr double kReflectance = 0.5;

std::string set_text(double beam_deg) {
    return R"(
[room]
size_m = [6.0, 6.0, 3.0]
reflectance = 0.0
[[surface]]
name = "floor"
reflectance = 0.5
[camera]
position = [0.0, 2.0, 2.0]
aim = [0.0, 0.0, 0.0]
focal_length_mm = 400.0
frame_px = [48, 32]
[[fixture]]
name = "spot"
form = "spot"
source = "led"
position = [0.0, 2.5, 0.0]
aim = [0.0, 0.0, 0.0]
output_lm = 1000
source_mm = 5.0
beam_angle_deg = )" +
           std::to_string(beam_deg) + R"(
[[region]]
name = "centre"
rect_px = [20, 12, 28, 20]
)";
}

// ∫ exp(-ln2 (θ/θ50)^n) 2π sinθ dθ for the default field angle, 1.35 times the beam.
double lumens_per_candela(double beam_deg) {
    const double half = 0.5 * beam_deg * kPi / 180;
    const double n = std::log(std::log(10.0) / std::log(2.0)) / std::log(1.35);
    const int steps = 20000;
    const double width = 0.5 * kPi / steps;
    double sum = 0;
    for (int i = 0; i <= steps; ++i) {
        const double t = i * width;
        const double f = std::exp(-std::log(2.0) * std::pow(t / half, n)) * std::sin(t);
        sum += f * (i == 0 || i == steps ? 1 : (i % 2 == 1 ? 4 : 2));
    }
    return 2 * kPi * sum * width / 3;
}

}  // namespace

TEST_CASE("a beam angle in the set file decides the luminance under the lamp") {
    for (const double beam_deg : {10.0, 25.0, 60.0}) {
        Problems problems;
        const SetDescription set = read_set_text(set_text(beam_deg), "trail.toml", problems);
        const Scene scene = build_scene(
            set,
            [](const PictureSource& picture) -> Texture { throw FileError(picture.path, "none"); },
            problems);
        REQUIRE(problems.empty());
        const World world(scene);
        const double expected =
            kReflectance / kPi * kLumens / lumens_per_candela(beam_deg) / (kHeight * kHeight);
        for (const Transport transport : {Transport::kCamera, Transport::kWalks}) {
            RenderOptions options;
            options.passes = 64;
            options.transport = transport;
            const RenderResult result = render_frame(scene, world, options);
            const auto found = result.film.region_luminance(0);
            CAPTURE(beam_deg);
            CAPTURE(found.mean);
            CAPTURE(found.stderr_of_mean);
            CAPTURE(expected);
            // The region is 1.5 cm wide. Within it the light of the narrowest beam falls by 3e-5
            // ((θ/θ50)^4 with θ/θ50 = 0.02), and by as much because of the distance. The rest of
            // the tolerance is for the rounding of floats.
            CHECK(std::abs(found.mean - expected) < 3.3 * found.stderr_of_mean + 2e-4 * expected);
            CHECK(found.stderr_of_mean < 0.003 * expected);
        }
    }
}
