#include "lenses/coating.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace dapple;

namespace {

constexpr double kTurn = 3.14159265358979323846;

// One layer by adding up the waves that its two boundaries send back (Airy's sum): another way than
// the matrix. Real indices, no total reflection.
struct LayerOnGlass {
    double n1 = 1, d = 0, n2 = 1;  // from air
};

double airy_reflectance(const LayerOnGlass& layer, double cos0, double nm, bool s) {
    const auto [n1, d, n2] = layer;
    const double n0 = 1;
    const auto cos_in = [&](double n) {
        return std::sqrt(1 - n0 * n0 * (1 - cos0 * cos0) / (n * n));
    };
    const double c1 = cos_in(n1);
    const double c2 = cos_in(n2);
    const auto amplitude = [&](double na, double ca, double nb, double cb) {
        return s ? (na * ca - nb * cb) / (na * ca + nb * cb)
                 : (nb * ca - na * cb) / (nb * ca + na * cb);
    };
    const double r1 = amplitude(n0, cos0, n1, c1);
    const double r2 = amplitude(n1, c1, n2, c2);
    const double phase = std::cos(4 * kTurn * n1 * d * c1 / nm);
    return (r1 * r1 + r2 * r2 + 2 * r1 * r2 * phase) /
           (1 + r1 * r1 * r2 * r2 + 2 * r1 * r2 * phase);
}

}  // namespace

TEST_CASE("a quarter wave reflects as its closed form says, over angle and wavelength") {
    for (const double glass : {1.5168, 1.67, 1.805}) {
        const auto layers = make_layers(LensCoating::kSingle, 1, glass);
        REQUIRE(layers.size() == 1);
        for (const double nm : {400.0, 475.0, 550.0, 620.0, 700.0}) {
            for (const double degrees : {0.0, 20.0, 40.0, 60.0, 80.0}) {
                CAPTURE(glass);
                CAPTURE(nm);
                CAPTURE(degrees);
                const double cosine = std::cos(degrees * kTurn / 180);
                const PolarisedPair r = layer_reflectance(layers, 1, glass, cosine, nm);
                const auto closed = [&](bool s) {
                    const LayerOnGlass layer{layers[0].index, layers[0].thickness, glass};
                    return airy_reflectance(layer, cosine, nm, s);
                };
                CHECK(r.s == doctest::Approx(closed(true)).epsilon(1e-9));
                CHECK(r.p == doctest::Approx(closed(false)).epsilon(1e-9));
            }
        }
    }
}

TEST_CASE("a quarter wave of magnesium fluoride reflects the recomputed figures") {
    // Per cent at 550, 450 and 650 nm, normal incidence; another program's table.
    const struct {
        double glass, green, blue, red;
    } rows[] = {{1.5168, 1.284, 1.636, 1.456}, {1.67, 0.430, 1.154, 0.786}};
    for (const auto& row : rows) {
        const auto layers = make_layers(LensCoating::kSingle, 1, row.glass);
        const auto percent = [&](double nm) {
            return 100 * layer_reflectance(layers, 1, row.glass, 1, nm).mean();
        };
        CHECK(percent(550) == doctest::Approx(row.green).epsilon(1e-3));
        CHECK(percent(450) == doctest::Approx(row.blue).epsilon(1e-3));
        CHECK(percent(650) == doctest::Approx(row.red).epsilon(1e-3));
    }
}

TEST_CASE("bare glass reflects as Fresnel says") {
    const double r = layer_reflectance({}, 1, 1.5168, 1, 550).mean();
    CHECK(100 * r == doctest::Approx(4.216).epsilon(1e-3));
}

TEST_CASE("what is not reflected passes, and both sides reflect alike") {
    for (const LensCoating coating :
         {LensCoating::kNone, LensCoating::kSingle, LensCoating::kMulti}) {
        for (const double degrees : {0.0, 30.0, 60.0, 85.0}) {
            for (const double nm : {420.0, 550.0, 680.0}) {
                const double cosine = std::cos(degrees * kTurn / 180);
                const double inside = std::sqrt(1 - (1 - cosine * cosine) / (1.67 * 1.67));
                const auto in = make_layers(coating, 1, 1.67);
                const auto out = make_layers(coating, 1.67, 1);
                const PolarisedPair r = layer_reflectance(in, 1, 1.67, cosine, nm);
                const PolarisedPair t = layer_transmittance(in, 1, 1.67, cosine, nm);
                const PolarisedPair back = layer_reflectance(out, 1.67, 1, inside, nm);
                CHECK(r.s + t.s == doctest::Approx(1).epsilon(1e-12));
                CHECK(r.p + t.p == doctest::Approx(1).epsilon(1e-12));
                CHECK(back.s == doctest::Approx(r.s).epsilon(1e-9));
                CHECK(back.p == doctest::Approx(r.p).epsilon(1e-9));
            }
        }
    }
}

TEST_CASE("three layers reflect a quarter of a per cent over the visible range") {
    // Recomputed by another program: 0.25 % mean over 420 to 680 nm for an index of 1.67.
    const auto layers = make_layers(LensCoating::kMulti, 1, 1.67);
    double sum = 0;
    int count = 0;
    for (double nm = 420; nm <= 680; nm += 1, ++count) {
        sum += layer_reflectance(layers, 1, 1.67, 1, nm).mean();
    }
    CHECK(100 * sum / count == doctest::Approx(0.25).epsilon(0.03));
}

TEST_CASE("beyond total reflection all light comes back") {
    for (const LensCoating coating : {LensCoating::kNone, LensCoating::kMulti}) {
        const auto layers = make_layers(coating, 1.67, 1);
        CHECK(layer_reflectance(layers, 1.67, 1, std::cos(50 * kTurn / 180), 550).mean() ==
              doctest::Approx(1).epsilon(1e-9));
    }
}
