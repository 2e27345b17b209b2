#include "math/warps.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "base/random.h"
#include "chi_square.h"

namespace dapple {

namespace {

constexpr int kWarpSamples = 200000;

// Counts directions in cosθ × φ bins of equal solid angle, cosθ from `low` to 1, and compares them
// with `expected_share` of a bin, given its two cosines.
template <typename Sample, typename Share>
double z_of_directions(float low, Sample sample, Share expected_share) {
    constexpr int kRings = 12;
    constexpr int kSectors = 16;
    std::vector<double> counts(kRings * kSectors, 0.0);
    std::vector<double> expected;
    RandomStream random(1, 0, 0, Purpose::kTest);
    for (int i = 0; i < kWarpSamples; ++i) {
        const float u = random.next();
        const Direction d = sample(u, random.next());
        const float height = (d.z - low) / (1 - low);
        const float turn = std::atan2(d.y, d.x) / (2 * kPiF) + 0.5F;
        const int ring = std::clamp(static_cast<int>(height * kRings), 0, kRings - 1);
        const int sector = std::clamp(static_cast<int>(turn * kSectors), 0, kSectors - 1);
        ++counts[static_cast<size_t>(ring * kSectors + sector)];
    }
    for (int ring = 0; ring < kRings; ++ring) {
        const double c0 = low + (1.0 - low) * ring / kRings;
        const double c1 = low + (1.0 - low) * (ring + 1) / kRings;
        expected.insert(expected.end(), kSectors, kWarpSamples * expected_share(c0, c1) / kSectors);
    }
    return chi_square_z(counts, expected);
}

// ∫ pdf dω over cosθ from `low` to 1, midpoint rule: exact for pdfs linear in cosθ.
template <typename Pdf>
double integral_over_directions(double low, Pdf pdf) {
    double sum = 0;
    for (int i = 0; i < 1000; ++i) {
        const double width = (1 - low) / 1000;
        sum += 2 * kPi * width * pdf(static_cast<float>(low + width * (i + 0.5)));
    }
    return sum;
}

template <typename Sample>
void check_unit_length(Sample sample) {
    for (float u = 0; u < 1; u += 0.0499F) {
        for (float v = 0; v < 1; v += 0.0499F) {
            CHECK(glm::length(sample(u, v)) == doctest::Approx(1.0).epsilon(1e-6));  // floats
        }
    }
}

}  // namespace

TEST_CASE("the densities of the warps integrate to one") {
    CHECK(integral_over_directions(0.0, pdf_cosine_hemisphere) == doctest::Approx(1).epsilon(1e-6));
    CHECK(integral_over_directions(-1.0, [](float) { return kPdfSphere; }) ==
          doctest::Approx(1).epsilon(1e-6));
    for (const float one_minus_cos : {1e-6F, 0.01F, 0.5F, 2.0F}) {
        const double solid_angle = 2 * kPi * one_minus_cos;
        CHECK(pdf_cone(one_minus_cos) * solid_angle == doctest::Approx(1).epsilon(1e-6));
    }
    CHECK(pdf_cosine_hemisphere(-0.5F) == 0);
}

TEST_CASE("directions over the cosine hemisphere are drawn by their density") {
    CHECK(z_of_directions(0, sample_cosine_hemisphere, [](double c0, double c1) {
              return c1 * c1 - c0 * c0;
          }) < kChiSquareLimit);
}

TEST_CASE("directions over the sphere are drawn by their density") {
    CHECK(z_of_directions(-1, sample_sphere, [](double c0, double c1) { return (c1 - c0) / 2; }) <
          kChiSquareLimit);
}

TEST_CASE("directions in a cone are drawn by their density") {
    // The cone is wide enough for cosθ in floats to distinguish the rings.
    const float one_minus_cos = 0.2F;
    const auto sample = [&](float u, float v) { return sample_cone(one_minus_cos, u, v); };
    CHECK(z_of_directions(1 - one_minus_cos, sample, [&](double c0, double c1) {
              return (c1 - c0) / one_minus_cos;
          }) < kChiSquareLimit);
}

TEST_CASE("points on the disk are uniform, and none lies outside") {
    std::vector<double> counts(8 * 16, 0.0);
    RandomStream random(2, 0, 0, Purpose::kTest);
    for (int i = 0; i < kWarpSamples; ++i) {
        const float u = random.next();
        const Vec2 p = sample_disk(u, random.next());
        const float r2 = glm::dot(p, p);
        REQUIRE(r2 <= 1 + 1e-6F);                                // floats
        const int ring = std::min(7, static_cast<int>(r2 * 8));  // rings of equal area
        const float turn = std::atan2(p.y, p.x) / (2 * kPiF) + 0.5F;
        const int sector = std::min(15, static_cast<int>(turn * 16));
        ++counts[static_cast<size_t>(ring * 16 + sector)];
    }
    CHECK(chi_square_z_uniform(counts) < kChiSquareLimit);
}

TEST_CASE("the disk's map keeps neighbours together: areas are equal everywhere") {
    // Shirley and Chiu 1997. Jacobian by central differences: π everywhere except on the seams
    // (diagonals and the centre), which the grid avoids.
    const float h = 2e-3F;
    for (float u = 0.13F; u < 0.9F; u += 0.117F) {
        for (float v = 0.08F; v < 0.9F; v += 0.113F) {
            const float a = std::abs(2 * u - 1);
            const float b = std::abs(2 * v - 1);
            if (std::abs(a - b) < 0.02F || a + b < 0.05F) continue;
            const Vec2 du = (sample_disk(u + h, v) - sample_disk(u - h, v)) / (2 * h);
            const Vec2 dv = (sample_disk(u, v + h) - sample_disk(u, v - h)) / (2 * h);
            // Differences of floats over 4e-3: 6e-5 of each entry, which are up to 3.
            CHECK(du.x * dv.y - du.y * dv.x == doctest::Approx(kPi).epsilon(2e-3));
        }
    }
}

TEST_CASE("all sampled directions have unit length") {
    check_unit_length(sample_cosine_hemisphere);
    check_unit_length(sample_sphere);
    for (const float one_minus_cos : {1e-7F, 0.3F, 2.0F}) {
        check_unit_length([&](float u, float v) { return sample_cone(one_minus_cos, u, v); });
    }
}

TEST_CASE("a narrow cone keeps its width: the sine does not come from a rounded cosine") {
    // Half-angle 1e-4 rad: 1 - cos = 5e-9, lost in 1 - (1 - x) of floats.
    const float one_minus_cos = 5e-9F;
    const Direction edge = sample_cone(one_minus_cos, 1.0F, 0.0F);
    CHECK(edge.x == doctest::Approx(1e-4).epsilon(1e-5));
}

}  // namespace dapple
