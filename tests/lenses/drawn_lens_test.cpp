// The picture through a lens of glass: where it is sharp, how bright, how it is bent.
#include "lenses/drawn_lens.h"

#include <doctest/doctest.h>

#include <cmath>

#include "lens_samples.h"
#include "lenses/paraxial.h"
#include "lenses/trace_lens.h"

using namespace dapple;
using namespace dapple::lens_samples;

namespace {

constexpr double kGreen_nm = 550;

Camera drawing_camera(const std::string& name, double focal_mm, float f_number, float focus_m) {
    Camera camera = camera_with(name, focal_mm, f_number, LensCoating::kMulti);
    camera.focus_distance = focus_m;
    camera.lens.draws = true;
    camera.width = 480;
    camera.height = 320;
    return camera;
}

const DVec2 kFilmMiddle(18, 12);

// Calls `use` with the rays from a place of the film through a grid over the pupil.
template <class Use>
void for_rays(const DrawnLens& lens, const DVec2& place, int across, const Use& use) {
    for (int k = 0; k < across * across; ++k) {
        const auto ray =
            lens.sample(place, (k % across + 0.5) / across, (k / across + 0.5) / across, kGreen_nm);
        if (ray) use(*ray);
    }
}

double mean_value(const DrawnLens& lens, const DVec2& place, int across) {
    double sum = 0;
    for_rays(lens, place, across, [&](const DrawnLens::SceneRay& ray) { sum += ray.value; });
    return sum / (across * across);
}

// Mean square distance of the rays from their middle, on the plane at this distance, mm².
double blur2(const std::vector<DrawnLens::SceneRay>& rays, double distance) {
    DVec2 sum(0);
    double squares = 0;
    for (const DrawnLens::SceneRay& ray : rays) {
        const DVec2 at = ray.on_pupil + distance / ray.direction.z * DVec2(ray.direction);
        sum += at;
        squares += glm::dot(at, at);
    }
    const auto count = static_cast<double>(rays.size());
    return squares / count - glm::dot(sum, sum) / (count * count);
}

// Where the light of a point at this angle and distance (mm) arrives, mm from the film's middle.
double image_height(const DrawnLens& lens, double angle, double distance) {
    const LensVec point(distance * std::tan(angle), 0, distance);
    double sum = 0;
    int count = 0;
    for (int k = 0; k < 256; ++k) {
        const DVec2 at = lens.point_on_pupil(point, (k % 16 + 0.5) / 16, (k / 16 + 0.5) / 16);
        const auto arrival = lens.project(point, at, kGreen_nm);
        if (!arrival) continue;
        sum += kFilmMiddle.x - arrival->place.x;
        ++count;
    }
    return count > 0 ? std::abs(sum / count) : 0.0;
}

}  // namespace

TEST_CASE("the picture is sharp at focus_m, within the depth of focus") {
    for (const char* name : {"normal", "wide", "portrait"}) {
        CAPTURE(name);
        const double focal = std::string(name) == "wide" ? 24 : 50;
        const double focus = 3000;  // mm
        const DrawnLens lens(drawing_camera(name, focal, 5.6F, 3));
        std::vector<DrawnLens::SceneRay> rays;
        for_rays(lens, kFilmMiddle, 24, [&](const auto& ray) { rays.push_back(ray); });
        double sharpest = 1500;
        for (double d = 1500; d < 6000; d += 10) {
            if (blur2(rays, d) < blur2(rays, sharpest)) sharpest = d;
        }
        // Depth of focus on the film ±N c, c a 1500th of the diagonal, seen in the room (E81).
        const double depth = 5.6 * (43.27 / 1500) * focus * focus / (focal * focal);
        CAPTURE(sharpest);
        CHECK(std::abs(sharpest - focus) < depth);
        // Blur there, as an angle: well below that of a pixel of 36 mm / 480.
        CHECK(std::sqrt(blur2(rays, sharpest)) / sharpest < 0.5 * (36.0 / 480) / focal);
    }
}

TEST_CASE("the middle of the picture is as bright as a thin lens makes it, within 0.5 %") {
    for (const char* name : {"normal", "wide", "portrait"}) {
        for (const float f_number : {4.0F, 11.0F}) {
            for (const float focus : {1.0F, 4.0F}) {
                CAPTURE(name);
                CAPTURE(f_number);
                CAPTURE(focus);
                const DrawnLens lens(drawing_camera(name, 40, f_number, focus));
                CHECK(mean_value(lens, kFilmMiddle, 200) == doctest::Approx(1).epsilon(0.005));
                // What the glass is divided by is the f-number's light, but for what the wide lens
                // cannot pass at f/4: 3 %.
                const double n = lens.lens().working_f_number();
                const double first_order = 3.14159265358979 / (4 * n * n);
                const bool is_narrow = std::string(name) != "wide" || f_number > 8;
                CHECK(lens.axis_light() ==
                      doctest::Approx(first_order).epsilon(is_narrow ? 0.005 : 0.035));
            }
        }
    }
}

TEST_CASE("the double Gauss bends the picture as another program finds") {
    // Image heights, mm, of points far away: glare of the whole pupil at f/11 moves them little.
    const DrawnLens lens(drawing_camera("normal", kNormalFocal, 11, 1e5F));
    const double angles[] = {5, 10, 15, 20, 22};
    const double heights[] = {4.40, 8.86, 13.41, 18.12, 20.05};
    for (int k = 0; k < 5; ++k) {
        CAPTURE(angles[k]);
        CHECK(image_height(lens, angles[k] * kDegree, 1e8) ==
              doctest::Approx(heights[k]).epsilon(0.003));
    }
}

TEST_CASE("what the picture shows at a place is what the exact chief ray sees there") {
    for (const char* name : {"normal", "wide", "portrait"}) {
        CAPTURE(name);
        const DrawnLens drawn(drawing_camera(name, 40, 16, 3));
        const RealLens& lens = drawn.lens();
        const LightRoute route = image_route(lens.glass());
        // The ray from 3 m that goes through the middle of the stop, by bisection.
        const LensVec point(900, 0, lens.entrance_depth() - 3000);
        double low = -60;
        double high = 60;
        LensArrival chief;
        for (int k = 0; k < 60; ++k) {
            const double y = 0.5 * (low + high);
            chief = trace_route(lens, route, ray_to_front(point, y, 0), 4);
            const bool is_high = chief.misses ? y > 0 : chief.stop[0].x > 0;
            (is_high ? high : low) = y;
        }
        REQUIRE_FALSE(chief.misses);
        const double height = image_height(drawn, std::atan2(900.0, 3000.0), 3000);
        CHECK(height == doctest::Approx(std::abs(chief.film.x)).epsilon(0.002));
        // A thin lens shows it further out: all three have barrel distortion.
        CHECK(height < 0.996 * 40 * 3000.0 / 2960 * 0.3);
    }
}

TEST_CASE("the corners darken as the beam's section and the picture's scale say") {
    // Section of the beam over that on the axis, f/5.6 (another program, to half a per cent).
    const DrawnLens lens(drawing_camera("normal", kNormalFocal, 5.6F, 1e5F));
    const double angles[] = {5, 10, 15, 20};
    const double sections[] = {1.000, 0.998, 0.976, 0.954};
    const double middle = mean_value(lens, kFilmMiddle, 200);
    for (int k = 0; k < 4; ++k) {
        CAPTURE(angles[k]);
        const double a = angles[k] * kDegree;
        const double h = image_height(lens, a, 1e8);
        const double slope =
            (image_height(lens, a + 0.01, 1e8) - image_height(lens, a - 0.01, 1e8)) / 0.02;
        // Light of a ring of the scene over the area of the ring on the film.
        const double expected =
            sections[k] * std::sin(a) * kNormalFocal * kNormalFocal / (h * slope);
        // Coated glass passes a little less at an angle.
        CHECK(mean_value(
                  lens, kFilmMiddle + DVec2(0, h > 12 ? 0 : h) + DVec2(h > 12 ? h : 0, 0), 200) /
                  middle ==
              doctest::Approx(expected).epsilon(0.012));
    }
}

TEST_CASE("the film finds the light that the scene sends, ray by ray and in sum") {
    const DrawnLens lens(drawing_camera("normal", 50, 4, 3));
    const DVec2 place(30.3, 17.1);
    double from_film = 0;
    int through = 0;
    for_rays(lens, place, 64, [&](const DrawnLens::SceneRay& ray) {
        from_film += ray.value / (64 * 64);
        const LensVec point = LensVec(ray.on_pupil, 0) + 2500 / ray.direction.z * ray.direction;
        const auto back = lens.project(point, ray.on_pupil, kGreen_nm);
        REQUIRE(back);
        CHECK(glm::length(back->place - place) < 1e-6);
        CHECK(back->ray.density == doctest::Approx(ray.density).epsilon(1e-6));
        ++through;
    });
    CHECK(through > 1000);
    // An even light over a square of 3 mm of the film, from points 2.5 m away: their area over the
    // square of the distance, by what each gives the pixels.
    const double pixels = 9 / (0.075 * 0.075);
    double from_scene = 0;
    const int across = 160;
    const double side = 300;  // mm
    for (int k = 0; k < across * across; ++k) {
        const double fx = (k % across + 0.5) / across;
        const double fy = (k / across + 0.5) / across;
        const LensVec point(450 + side * fx, -400 + side * fy, 2500);
        // A low-discrepancy point of the pupil (Roberts 2018: powers of the plastic number).
        const double u = std::fmod(0.5 + 0.7548776662466927 * k, 1.0);
        const double v = std::fmod(0.5 + 0.5698402909980532 * k, 1.0);
        const DVec2 at = lens.point_on_pupil(point, u, v);
        const auto arrival = lens.project(point, at, kGreen_nm);
        if (!arrival) continue;
        const DVec2 off = glm::abs(arrival->place - place);
        if (off.x > 1.5 || off.y > 1.5) continue;
        const double area = side * side / (across * across);
        const LensVec way = point - LensVec(at, 0);
        const double steradians = area * way.z / std::pow(glm::length(way), 3);
        from_scene += arrival->ray.response * steradians / pixels;
    }
    CHECK(from_scene == doctest::Approx(from_film).epsilon(0.02));
}

TEST_CASE("a lens with Abbe numbers parts the colours in a fine picture, one without does not") {
    Camera camera = drawing_camera("portrait", 85, 2, 3);
    camera.width = 6000;
    camera.height = 4000;
    CHECK(DrawnLens(camera).splits_colours());
    camera.lens.name = "normal";
    CHECK_FALSE(DrawnLens(camera).splits_colours());
}
