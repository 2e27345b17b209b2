// Ghosts traced exactly, against first order and against a random walk that follows all light.
#include <doctest/doctest.h>

#include <cmath>

#include "base/random.h"
#include "lens_samples.h"
#include "lenses/ghost_sheet.h"
#include "lenses/lens_wavelengths.h"
#include "lenses/paraxial.h"

using namespace dapple;
using namespace dapple::lens_samples;

namespace {

constexpr int kGreen = 4;  // 550 nm
const Hood kNoHood{};

// Middle and diameter of a ghost by first order, mm: the heights that stop and rims let pass.
DVec2 first_order_ghost(const RealLens& lens, const LightRoute& route, const LensVec& lamp) {
    const Paraxial first_order(lens.glass(), 550);
    const auto at = first_order.to_surfaces(route);
    double low = -1e9;
    double high = 1e9;
    const auto image = [&](const RayMatrix& m, double y) {
        return (m.a - m.b / lamp.z) * y + m.b * lamp.x / lamp.z;
    };
    for (size_t k = 0; k < at.size(); ++k) {
        const LensSurface& s = lens.glass().surfaces[route.steps[k].surface];
        const double limit = s.is_stop ? lens.stop().radius : s.free_radius;
        const double slope = image(at[k], 1) - image(at[k], 0);
        const double one = (limit - image(at[k], 0)) / slope;
        const double two = (-limit - image(at[k], 0)) / slope;
        low = std::max(low, std::min(one, two));
        high = std::min(high, std::max(one, two));
    }
    const RayMatrix film = first_order.to_film(route, lens.film_z());
    const double a = image(film, low);
    const double b = image(film, high);
    return {0.5 * (a + b), low < high ? std::abs(a - b) : 0.0};
}

struct Balance {
    double image = 0, ghosts = 0, higher = 0, lost = 0;  // shares of the light that enters
    int walks = 0;
};

enum class Bin { kImage, kTwo, kHigher, kLost };

// A random walk through the lens that reflects or refracts by chance.
Bin walk_lens(const RealLens& lens, LensRay ray, uint32_t index) {
    RandomStream random(7, index, 0, Purpose::kPilot);
    const auto& surfaces = lens.glass().surfaces;
    const auto count = static_cast<int>(surfaces.size());
    int at = 0;
    bool forwards = true;
    int reflections = 0;
    while (at >= 0 && at < count) {
        const LensSurface& s = surfaces[static_cast<size_t>(at)];
        SurfaceMeeting meeting;
        if (!meet_surface(s, 550, forwards, ray, meeting)) return Bin::kLost;
        const double height = std::hypot(ray.position.x, ray.position.y);
        if (s.is_stop) {
            if (!lens.stop().passes(ray.position.x, ray.position.y)) return Bin::kLost;
        } else if (height > s.free_radius) {
            return Bin::kLost;
        } else {
            const double r =
                meeting.cos_rarer < 0
                    ? 1.0
                    : static_cast<double>(
                          lens.reflectance(static_cast<size_t>(at)).at(meeting.cos_rarer)[kGreen]);
            if (static_cast<double>(random.next()) < r) {
                reflect_at(meeting, ray);
                forwards = !forwards;
                ++reflections;
            } else if (!refract_at(s, 550, forwards, meeting, ray)) {
                return Bin::kLost;
            }
        }
        at += forwards ? 1 : -1;
    }
    if (at < 0) return Bin::kLost;
    return reflections == 0 ? Bin::kImage : reflections == 2 ? Bin::kTwo : Bin::kHigher;
}

Balance walk_all(const RealLens& lens, const LensVec& lamp, int walks) {
    Balance balance;
    for (int k = 0; k < walks; ++k) {
        // Evenly over the front element: a spiral of equal areas.
        const double r = lens.front_radius() * std::sqrt((k + 0.5) / walks);
        const double a = 2.39996322972865332 * k;
        const LensRay ray = ray_to_front(lamp, r * std::cos(a), r * std::sin(a));
        switch (walk_lens(lens, ray, static_cast<uint32_t>(k))) {
            case Bin::kImage:
                balance.image += 1;
                break;
            case Bin::kTwo:
                balance.ghosts += 1;
                break;
            case Bin::kHigher:
                balance.higher += 1;
                break;
            case Bin::kLost:
                balance.lost += 1;
                break;
        }
    }
    const double per = 1.0 / walks;
    return {
        balance.image * per, balance.ghosts * per, balance.higher * per, balance.lost * per, walks};
}

double share_of_ghosts(const RealLens& lens, const LensVec& lamp, int size) {
    double sum = 0;
    for (const auto& [i, j] : ghost_pairs(lens.glass())) {
        const LightRoute route = ghost_route(lens.glass(), i, j);
        const GhostSheet sheet = trace_sheet(lens, kNoHood, route, lamp, kGreen, size);
        sum += static_cast<double>(sum_sheet(lens, route, sheet).share[kGreen]);
    }
    return sum;
}

}  // namespace

TEST_CASE("at a small angle ghosts are where first-order matrices put them, within 2 %") {
    // f/64, a lamp 0.5° off the axis, 5 m away (Lee and Eisemann 2013 for the matrices). A wider
    // stop lets light through at angles at which aberration moves the middle of large ghosts.
    const RealLens lens(camera_with("normal", kNormalFocal, 64, LensCoating::kNone));
    const LensVec lamp = lamp_at(0.5, 5);
    int compared = 0;
    for (const auto& [i, j] : ghost_pairs(lens.glass())) {
        const LightRoute route = ghost_route(lens.glass(), i, j);
        const DVec2 expected = first_order_ghost(lens, route, lamp);
        const GhostSheet sheet = trace_sheet(lens, kNoHood, route, lamp, kGreen, 97);
        const SheetSum traced = sum_sheet(lens, route, sheet);
        CAPTURE(i);
        CAPTURE(j);
        if (!(expected.y > 0)) {  // one crossing of the stop blocks what another lets pass
            CHECK(traced.share[kGreen] == 0);
            continue;
        }
        // A part in fifty, but 0.01 mm for the ghosts near the axis.
        const double middle = 0.5 * (traced.low + traced.high);
        CHECK(std::abs(middle - expected.x) < std::max(0.02 * std::abs(expected.x), 0.01));
        ++compared;
    }
    CHECK(compared >= 40);
}

TEST_CASE("five ghosts of the double Gauss are where another program has them") {
    // Middle and extent along x, mm, recomputed: f/16, 1°, 5 m. Surfaces count from 1 in the table.
    const RealLens lens(camera_with("normal", kNormalFocal, 16, LensCoating::kNone));
    const LensVec lamp = lamp_at(1, 5);
    const struct {
        size_t i, j;
        double middle, extent;
    } rows[] = {{1, 3, -1.01, 2.63},
                {7, 9, -0.93, 4.69},
                {3, 7, 0.79, 1.57},
                {1, 7, 0.88, 0.68},
                {10, 11, 0.12, 7.82}};
    for (const auto& row : rows) {
        CAPTURE(row.i);
        CAPTURE(row.j);
        const LightRoute route = ghost_route(lens.glass(), row.i - 1, row.j - 1);
        const SheetSum traced =
            sum_sheet(lens, route, trace_sheet(lens, kNoHood, route, lamp, kGreen, 129));
        CHECK(std::abs(traced.mean.x - row.middle) < 0.025);
        CHECK(traced.high - traced.low == doctest::Approx(row.extent).epsilon(0.03));
    }
}

TEST_CASE("image, ghosts and what is lost are the light that entered, within 0.3 %" *
          doctest::test_suite("figures")) {
    // The walk closes by construction; the pairs must agree with its bins.
    for (const LensCoating coating : {LensCoating::kNone, LensCoating::kSingle}) {
        CAPTURE(static_cast<int>(coating));
        const RealLens lens(camera_with("normal", kNormalFocal, 2.8F, coating));
        const LensVec lamp = lamp_at(15, 5);
        const Balance walked = walk_all(lens, lamp, 60000);
        const LightRoute route = image_route(lens.glass());
        const double image = static_cast<double>(
            sum_sheet(lens, route, trace_sheet(lens, kNoHood, route, lamp, kGreen, 129))
                .share[kGreen]);
        const double ghosts = share_of_ghosts(lens, lamp, 97);
        CHECK(std::abs(image + ghosts + walked.higher + walked.lost - 1) < 0.003);
        // Standard errors of the walk's shares: below 0.0018 and 0.0005.
        CHECK(std::abs(image - walked.image) < 0.004);
        CHECK(std::abs(ghosts - walked.ghosts) < 0.0015);
    }
}

TEST_CASE("ghosts have the shares of light that another program finds" *
          doctest::test_suite("figures")) {
    const LensVec lamp = lamp_at(15, 5);
    const RealLens bare(camera_with("normal", kNormalFocal, 2.8F, LensCoating::kNone));
    CHECK(share_of_ghosts(bare, lamp, 97) == doctest::Approx(1.55e-2).epsilon(0.02));
    const RealLens single(camera_with("normal", kNormalFocal, 2.8F, LensCoating::kSingle));
    CHECK(share_of_ghosts(single, lamp, 97) == doctest::Approx(1.58e-4).epsilon(0.03));
}

TEST_CASE("the exit pupil has the size of the f-number") {
    // The cone of light that meets the middle of the film: tan = 1/(2N) in first order.
    const RealLens lens(camera_with("normal", kNormalFocal, 8, LensCoating::kNone));
    const LightRoute route = image_route(lens.glass());
    const LensVec far(0, 0, -1e9);
    const GhostSheet sheet = trace_sheet(lens, kNoHood, route, far, kGreen, 201);
    double steepest = 0;
    for (const LensArrival& ray : sheet.rays) {
        if (!is_through(lens, route, ray)) continue;
        steepest = std::max(steepest, std::hypot(ray.direction.x, ray.direction.y));
    }
    CHECK(steepest == doctest::Approx(1 / 16.0).epsilon(0.01));
}

TEST_CASE("a hood lets in the share of light that its overlap says") {
    // Recomputed by another program for f/2.8 and a half field of 23.24°: 20 mm.
    Camera camera = camera_with("normal", kNormalFocal, 2.8F, LensCoating::kNone);
    camera.sensor = Vec2(0.036F, 0.024F);
    const RealLens lens(camera);
    const Hood hood = make_hood(camera, lens, 20);
    CHECK(hood.rim_radius == doctest::Approx(26.15).epsilon(2e-3));
    const auto degrees = [](double d) { return d * 3.14159265358979 / 180; };
    CHECK(hood.lit_share(degrees(35)) == doctest::Approx(0.994).epsilon(2e-3));
    CHECK(hood.lit_share(degrees(45)) == doctest::Approx(0.756).epsilon(3e-3));
    CHECK(hood.lit_share(degrees(55)) == doctest::Approx(0.333).epsilon(5e-3));
    CHECK(hood.lit_share(degrees(65)) == 0);
    CHECK(dark_angle(hood) == doctest::Approx(degrees(62.7)).epsilon(2e-3));
}

TEST_CASE("the hood that is asked for against a lamp shades the front element from it") {
    Camera camera = camera_with("normal", kNormalFocal, 2.8F, LensCoating::kNone);
    const RealLens lens(camera);
    for (const double angle : {0.6, 0.8, 1.2}) {
        const auto length = hood_against(camera, lens, angle, 1e4);
        REQUIRE(length);
        CHECK(make_hood(camera, lens, *length * 1.001).lit_share(angle) == 0);
        CHECK(make_hood(camera, lens, *length * 0.9).lit_share(angle) > 0);
    }
    CHECK_FALSE(hood_against(camera, lens, 0.2, 1e4));  // it is in the picture
}
