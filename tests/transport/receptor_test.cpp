// Receptors: meter walks start from the same surface as light walks fall on.
#include "transport/receptor.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "base/random.h"
#include "math/warps.h"

using namespace dapple;

namespace {

std::vector<Meter> all_receptors() {
    Meter disc;
    disc.name = "disc";
    disc.position = Point(0.3F, -0.2F, 0.5F);
    disc.facing = glm::normalize(Vec3(1, 2, -0.5F));
    disc.diameter = 0.3F;
    Meter rectangle = disc;
    rectangle.name = "rectangle";
    rectangle.diameter = 0;
    rectangle.size = Vec2(0.4F, 0.2F);
    Meter dome = disc;
    dome.name = "dome";
    dome.receptor = ReceptorKind::kDome;
    return {disc, rectangle, dome};
}

}  // namespace

TEST_CASE("a walk against the direction of a meter walk meets the receptor at its start") {
    RandomStream random(1, 0, 0, Purpose::kTest);
    for (const Meter& meter : all_receptors()) {
        CAPTURE(meter.name);
        const Receptor receptor(meter);
        for (int i = 0; i < 1000; ++i) {
            const float u = random.next();
            const float v = random.next();
            const ReceptorPoint at = receptor.sample_point(u, v);
            const float w = random.next();
            const Direction out = Receptor::sample_direction(at, w, random.next());
            const float cos_front = glm::dot(out, at.normal);
            if (cos_front < 0.01F) continue;
            Receptor::Crossing crossing;
            REQUIRE(
                receptor.crossed_by({at.position + 2.0F * out, -out, 0, kInfinity}, 3, crossing));
            // The errors are those of floats at distances of metres.
            CHECK(glm::distance(crossing.at.position, at.position) < 2e-5F);
            CHECK(glm::distance(crossing.at.normal, at.normal) < 2e-4F);
            CHECK(std::abs(crossing.cos_front - cos_front) < 2e-4F);
            CHECK_FALSE(receptor.crossed_by(
                {at.position + 2.0F * out, -out, 0, kInfinity}, 1.9F, crossing));
        }
    }
}

TEST_CASE("parallel light reads cosθ on a flat receptor and (1 + cosθ)/2 on a dome") {
    // A beam of 1 lx, as rays through random points of a square of side 1 m around the receptor.
    // The number of rays that fall on the receptor is binomial.
    for (const Meter& meter : all_receptors()) {
        const Receptor receptor(meter);
        const Frame around(meter.facing);
        for (const float angle_deg : {0.0F, 30.0F, 60.0F, 80.0F, 110.0F, 150.0F}) {
            const float angle = static_cast<float>(radians_from_degrees(angle_deg));
            const Direction from =
                around.to_world(direction_from_angles(std::cos(angle), std::sin(angle), 0.7F));
            const Frame beam(from);
            RandomStream random(2, 0, static_cast<uint64_t>(angle_deg), Purpose::kTest);
            const int rays = 200000;
            double lux = 0;
            int on_receptor = 0;
            for (int i = 0; i < rays; ++i) {
                const float s = random.next() - 0.5F;
                const float t = random.next() - 0.5F;
                const Point origin = meter.position + from * 5.0F + beam.s * s + beam.t * t;
                Receptor::Crossing crossing;
                if (!receptor.crossed_by({origin, -from, 0, kInfinity}, 100, crossing)) continue;
                ++on_receptor;
                lux += static_cast<double>(receptor.lux_per_lumen()) / rays;
            }
            const double cosine = std::cos(static_cast<double>(angle));
            const double expected =
                meter.receptor == ReceptorKind::kDome ? 0.5 * (1 + cosine) : std::max(0.0, cosine);
            const double share = static_cast<double>(on_receptor) / rays;
            const double se = std::sqrt(share * (1 - share) / rays) *
                              static_cast<double>(receptor.lux_per_lumen());
            CAPTURE(meter.name);
            CAPTURE(angle_deg);
            CAPTURE(lux);
            CAPTURE(expected);
            CAPTURE(se);
            CHECK(std::abs(lux - expected) < 3.3 * se + 1e-6);
        }
    }
}

TEST_CASE("meter walks start evenly over the receptor and read uniform light correctly") {
    // In uniform light of 1 cd/m² every walk reads lux_per_walk(). The reading is π on a flat
    // receptor and 2π on a dome (the integral of (1 + cosθ)/2 over all directions).
    for (const Meter& meter : all_receptors()) {
        CAPTURE(meter.name);
        const double expected = meter.receptor == ReceptorKind::kDome ? 2 * kPi : kPi;
        CHECK(Receptor(meter).lux_per_walk() == doctest::Approx(expected));
    }
    // The mean of a dome's normals is half its axis (Archimedes).
    const Meter dome = all_receptors()[2];
    const Receptor receptor(dome);
    Vec3 mean(0.0F);
    const int n = 256;
    for (int i = 0; i < n; ++i) {
        for (int j = 0; j < n; ++j) {
            const auto point = receptor.sample_point((static_cast<float>(i) + 0.5F) / n,
                                                     (static_cast<float>(j) + 0.5F) / n);
            mean += point.normal / static_cast<float>(n * n);
        }
    }
    CHECK(glm::distance(mean, 0.5F * dome.facing) < 1e-4F);
}
