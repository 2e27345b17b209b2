// A lens's angle of view and depth of field, measured with the rays that the renderer uses.
#include "transport/lens.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "base/units.h"
#include "published/published.h"

namespace lens_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Lens");

const std::string kView = "2 atan(w/2f), Hecht, Optics, recomputed";
const std::string kThinLens = "thin lens, Hecht, Optics, recomputed";

constexpr double kFarAway = 1e12;  // mm

// A camera at the origin. Its sensor and its focal length are in millimetres.
Camera camera_of(double focal_mm, double width_mm, double height_mm) {
    Camera camera;
    camera.frame = looking_frame(Direction(0, 0, -1));
    camera.focal_length = static_cast<float>(metres_from_mm(focal_mm));
    camera.sensor = Vec2(static_cast<float>(metres_from_mm(width_mm)),
                         static_cast<float>(metres_from_mm(height_mm)));
    camera.width = 900;
    camera.height = 600;
    return camera;
}

// Degrees between the rays that go through two raster positions and the centre of the lens.
double degrees_between(const Lens& lens, const Vec2& a, const Vec2& b) {
    const Vec3 to_a = lens.sample_ray(a, 0.5F, 0.5F).ray.direction;
    const Vec3 to_b = lens.sample_ray(b, 0.5F, 0.5F).ray.direction;
    return degrees_from_radians(2 * std::atan2(glm::length(to_a - to_b), glm::length(to_a + to_b)));
}

struct View {
    double horizontal, vertical, diagonal;  // degrees
};

View view_of(const Camera& camera) {
    const Lens lens(camera);
    const auto w = static_cast<float>(camera.width);
    const auto h = static_cast<float>(camera.height);
    return {degrees_between(lens, Vec2(0, 0.5F * h), Vec2(w, 0.5F * h)),
            degrees_between(lens, Vec2(0.5F * w, 0), Vec2(0.5F * w, h)),
            degrees_between(lens, Vec2(0, 0), Vec2(w, h))};
}

// A lens focused at a distance, with only a small piece of the sensor, so that its pixels are fine.
Camera focused(double focal_mm, double f_number, double focus_mm, double piece_mm) {
    Camera camera = camera_of(focal_mm, piece_mm, piece_mm);
    camera.height = camera.width;
    camera.f_number = static_cast<float>(f_number);
    camera.focus_distance = static_cast<float>(metres_from_mm(focus_mm));
    return camera;
}

// Diameter on the sensor, mm, of the disk of a point on the axis: the extent of the pixels in which
// the point is seen through the rim of the aperture. Infinite if the disk is larger than the piece
// of the sensor.
double blur_mm(const Camera& camera, double distance_mm) {
    const Lens lens(camera);
    const Point point(0, 0, -static_cast<float>(metres_from_mm(distance_mm)));
    float left = kInfinity;
    float right = -kInfinity;
    constexpr int kAround = 64;  // steps along two sides of the square that is mapped to the disk
    for (int i = 0; i < kAround; ++i) {
        const float along = static_cast<float>(i) / kAround;
        for (const float side : {0.0F, 1.0F}) {
            Lens::Projection seen;
            if (!lens.project(point, side, along, seen)) return kInfinity;
            left = std::min(left, seen.raster.x);
            right = std::max(right, seen.raster.x);
        }
    }
    const double pixel_mm = 1e3 * camera.sensor.x / static_cast<double>(camera.width);
    return (right - left) * pixel_mm;
}

// The place between a sharp one and a blurred one at which `is_blurred` begins.
template <typename IsBlurred>
double between(double sharp, double blurred, const IsBlurred& is_blurred) {
    for (int i = 0; i < 48; ++i) {
        const double middle = 0.5 * (sharp + blurred);
        (is_blurred(middle) ? blurred : sharp) = middle;
    }
    return 0.5 * (sharp + blurred);
}

}  // namespace

TEST_CASE("lenses show the published angles of view") {
    const struct {
        double width, height, focal;
        const char *horizontal, *vertical, *diagonal;
    } rows[] = {{36, 24, 24, "73.740", "53.130", "84.062"},
                {36, 24, 35, "54.432", "37.849", "63.440"},
                {36, 24, 50, "39.598", "26.991", "46.793"},
                {36, 24, 85, "23.913", "16.071", "28.558"},
                {36, 24, 100, "20.408", "13.686", "24.414"},
                {24, 18, 35, "37.849", "28.842", "46.397"},
                {24, 18, 50, "26.991", "20.408", "33.398"},
                {23.6, 15.7, 35, "37.262", "25.283", "44.089"},
                {23.6, 15.7, 50, "26.558", "17.845", "31.651"}};
    for (const auto& row : rows) {
        const View view = view_of(camera_of(row.focal, row.width, row.height));
        const std::string of = " of " + figure(row.focal) + " mm on " + figure(row.width) + " x " +
                               figure(row.height) + " mm";
        kSubject.exact("horizontal view" + of, kView, "°", row.horizontal, view.horizontal);
        kSubject.exact("vertical view" + of, kView, "°", row.vertical, view.vertical);
        kSubject.exact("diagonal view" + of, kView, "°", row.diagonal, view.diagonal);
    }
}

TEST_CASE("a lens focused close has a smaller angle of view") {
    Camera camera = camera_of(50, 36, 24);
    camera.focus_distance = 1;
    const double half_view = 0.5 * radians_from_degrees(view_of(camera).horizontal);
    kSubject.exact("image distance of 50 mm focused at 1 m",
                   kThinLens,
                   "mm",
                   "52.6316",
                   0.5 * 36 / std::tan(half_view));
}

TEST_CASE("points out of focus make disks of the published size") {
    const Camera normal = focused(50, 2.8, 3000, 0.5);
    const std::string of = ", 50 mm f/2.8 at 3 m";
    kSubject.exact(
        "blur of a point at 6 m" + of, kThinLens, "mm", "0.15133", blur_mm(normal, 6000));
    kSubject.exact(
        "blur of a point far away" + of, kThinLens, "mm", "0.30266", blur_mm(normal, kFarAway));
    kSubject.exact("blur of a point at 4 m, 85 mm f/1.8 at 2 m",
                   kThinLens,
                   "mm",
                   "1.04801",
                   blur_mm(focused(85, 1.8, 2000, 2), 4000));
}

TEST_CASE("depth of field ends where published") {
    const struct {
        double focal, f_number, circle, focus;
        const char *hyperfocal, *near, *far, *total;
    } rows[] = {{50, 2.8, 0.030, 3000, "29811.9", "2729.46", "3330.08", "600.62"},
                {50, 8, 0.030, 3000, "10466.7", "2337.91", "4185.27", "1847.36"},
                {35, 2.8, 0.025, 2000, "17535.0", "1798.10", "2252.98", "454.88"},
                {85, 1.8, 0.030, 2000, "133881.3", "1971.78", "2029.04", "57.26"},
                {24, 11, 0.030, 1500, "1769.5", "812.73", "9716.60", "8903.87"}};
    for (const auto& row : rows) {
        const double piece = 1.5 * row.circle;
        const auto at = [&](double focus) {
            return focused(row.focal, row.f_number, focus, piece);
        };
        const std::string lens = figure(row.focal) + " mm f/" + figure(row.f_number) + ", circle " +
                                 figure(row.circle) + " mm";
        const std::string of = ", " + lens + ", focused at " + figure(row.focus) + " mm";
        const double near = between(row.focus, 0.5 * row.focus, [&](double distance) {
            return blur_mm(at(row.focus), distance) > row.circle;
        });
        const double far = between(row.focus, 10 * row.focus, [&](double distance) {
            return blur_mm(at(row.focus), distance) > row.circle;
        });
        // Focused at this distance, a far point's blur has just the diameter of the circle.
        const double hyperfocal = between(1e6, 2 * row.focal, [&](double focus) {
            return blur_mm(at(focus), kFarAway) > row.circle;
        });
        kSubject.exact("near limit" + of, kThinLens, "mm", row.near, near);
        kSubject.exact("far limit" + of, kThinLens, "mm", row.far, far);
        kSubject.exact("depth" + of, kThinLens, "mm", row.total, far - near);
        kSubject.exact("hyperfocal distance, " + lens, kThinLens, "mm", row.hyperfocal, hyperfocal);
    }
}

}  // namespace lens_test
