// The first-order figures of the published lenses (W. J. Smith, Modern Lens Design, 1992; focal
// lengths recomputed from the rows).
#include "lenses/paraxial.h"

#include <doctest/doctest.h>

#include "lens_samples.h"
#include "lenses/real_lens.h"

using namespace dapple;
using namespace dapple::lens_samples;

TEST_CASE("the published lenses have the focal lengths and back foci that their rows give") {
    const struct {
        const char* name;
        double focal, back;  // mm
    } figures[] = {{"normal", 50.36, 36.11}, {"portrait", 100.44, 55.15}, {"wide", 100.11, 65.08}};
    for (const auto& [name, focal, back] : figures) {
        CAPTURE(name);
        const Prescription lens = prescription_of(published_rows(name));
        const Paraxial first_order(lens, 587.6);
        CHECK(first_order.focal_length() == doctest::Approx(focal).epsilon(1e-4));
        CHECK(first_order.back_focus() == doctest::Approx(back).epsilon(1.5e-4));
    }
}

TEST_CASE("a lens is scaled to the focal length of the set") {
    for (const char* name : {"normal", "portrait", "wide"}) {
        CameraLens lens;
        lens.name = name;
        CHECK(Paraxial(make_prescription(lens, 35), 587.6).focal_length() ==
              doctest::Approx(35).epsilon(1e-9));
    }
}

TEST_CASE("the pupils of the double Gauss are where first order puts them") {
    // Recomputed by another program: depth 19.946 and radius 8.993 mm at f/2.8, stop radius 6.199.
    const RealLens lens(camera_with("normal", kNormalFocal, 2.8F, LensCoating::kNone));
    CHECK(lens.entrance_depth() == doctest::Approx(19.946).epsilon(1e-4));
    CHECK(lens.entrance_radius() == doctest::Approx(8.993).epsilon(1e-4));
    CHECK(lens.stop().radius == doctest::Approx(6.199).epsilon(2e-4));
}

TEST_CASE("a lens that cannot open as far as asked opens as far as it can") {
    const RealLens lens(camera_with("normal", kNormalFocal, 2.0F, LensCoating::kNone));
    CHECK(lens.is_wide_open());
    CHECK(lens.f_number() == doctest::Approx(2.03).epsilon(2e-3));
}

TEST_CASE("blades pass the light of the round stop of the same f-number") {
    for (const int blades : {3, 5, 8}) {
        CAPTURE(blades);
        const RealLens lens(camera_with("normal", 50, 8, LensCoating::kNone, blades));
        const RealLens round(camera_with("normal", 50, 8, LensCoating::kNone));
        const double r = lens.stop().radius;
        int inside = 0;
        constexpr int kAcross = 1000;
        for (int i = 0; i < kAcross; ++i) {
            for (int j = 0; j < kAcross; ++j) {
                const double x = (2 * (i + 0.5) / kAcross - 1) * r;
                const double y = (2 * (j + 0.5) / kAcross - 1) * r;
                inside += lens.stop().passes(x, y) ? 1 : 0;
            }
        }
        const double area = 4 * r * r * inside / (kAcross * kAcross);
        const double wanted = 3.14159265358979 * round.stop().radius * round.stop().radius;
        CHECK(area == doctest::Approx(wanted).epsilon(2e-3));  // the grid
    }
}

TEST_CASE("focusing near moves the film back") {
    // v - f for an object 2000 mm before the first vertex, recomputed by another program.
    Camera camera = camera_with("normal", kNormalFocal, 2.8F, LensCoating::kNone);
    const double far = RealLens(camera).film_z();
    camera.focus_distance = 2.0F + 0.019946F;  // from the entrance pupil
    CHECK(RealLens(camera).film_z() - far == doctest::Approx(1.2854).epsilon(2e-3));
}
