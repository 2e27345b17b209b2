// A prism's spectrum on the film: light thrown through it on to a screen, and a patch seen through
// a wedge.
//
// In the plane across the prism a ray is turned by (Hecht, Optics)
//   δ(λ) = i + asin(sinA √(n² - sin²i) - sin i cosA) - A
// with n(λ) of the catalogue's lead crystal. Expected places are those of δ, weighted by the lamp's
// own spectrum, the CIE 1931 observer, Fresnel's shares at both faces (unpolarised at each, as it
// is traced) and the glass's absorption, summed over 380 to 780 nm. Lengths on the film are in px.
//
// Places are centroids of X, Y and Z along the spectrum, standard errors those of several seeds.
// The beam is Gaussian and summed over; about one pixel wide (standard deviation), so that
// centroids are rounded by less than 1e-6 px by which pixel a ray falls on. Paths end at the
// screen: no light comes any other way.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <functional>
#include <map>
#include <utility>
#include <vector>

#include "base/units.h"
#include "fixtures/source_groups.h"
#include "geometry/world.h"
#include "materials/glass_catalogue.h"
#include "published/published.h"
#include "published/traced.h"
#include "render/render_frame.h"
#include "render/schedule.h"
#include "spectrum/observer.h"

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Prisms on the film");
const char* const kSource = "Hecht, Optics; CIE 1931; dispersion formula, Polyanskiy 2024";
constexpr GlassType kGlass = GlassType::kLeadCrystal;
constexpr double kFirstNm = 380;
constexpr double kLastNm = 780;

double index_at(double nm) {
    return refractive_index(kGlass, nm);
}
// Halfway between the ends of the spectrum.
double middle_index() {
    return 0.5 * (index_at(kFirstNm) + index_at(kLastNm));
}

glm::dvec2 along(double angle) {
    return {std::cos(angle), std::sin(angle)};
}

// Of unpolarised light at an angle in air, or at the angle beyond.
double fresnel_passes(double in_air, double in_glass) {
    if (in_air == 0) in_air = in_glass = 1e-6;
    const double s = std::sin(in_air - in_glass) / std::sin(in_air + in_glass);
    const double p = std::tan(in_air - in_glass) / std::tan(in_air + in_glass);
    return 1 - 0.5 * (s * s + p * p);
}

// Apex up at (0, height), its base in y = 0; rays go from left to right. Angles from +x towards +y.
struct Prism {
    double apex;    // rad
    double height;  // m

    struct Ray {
        glm::dvec2 origin;
        double angle;
        double share = 1;   // that Fresnel passes
        double length = 0;  // m, in the glass
    };

    glm::dvec2 middle_of_left() const {
        return {-0.5 * height * std::tan(0.5 * apex), 0.5 * height};
    }
    double symmetrical_incidence(double n) const { return std::asin(n * std::sin(0.5 * apex)); }

    double deviation(double incidence, double n) const {
        const double s = std::sin(incidence);
        return incidence +
               std::asin(std::sin(apex) * std::sqrt(n * n - s * s) - s * std::cos(apex)) - apex;
    }

    Ray through(const Ray& ray, double n) const {
        const glm::dvec2 top(0, height);
        const auto meet = [&](const glm::dvec2& from, double angle, double normal) {
            const double t =
                glm::dot(top - from, along(normal)) / glm::dot(along(angle), along(normal));
            return from + t * along(angle);
        };
        const double incidence = ray.angle + 0.5 * apex;
        const double inside = std::asin(std::sin(incidence) / n);
        const double turned = deviation(incidence, n);
        const glm::dvec2 entry = meet(ray.origin, ray.angle, -0.5 * apex);
        const glm::dvec2 exit = meet(entry, inside - 0.5 * apex, 0.5 * apex);
        return {exit,
                ray.angle - turned,
                fresnel_passes(incidence, inside) *
                    fresnel_passes(turned + apex - incidence, apex - inside),
                glm::length(exit - entry)};
    }

    Scene scene() const {
        const double half = height * std::tan(0.5 * apex);
        Scene scene = solid_scene({Vec2(-half, 0), Vec2(half, 0), Vec2(0, height)}, 0.1F);
        scene.materials[0].glass = kGlass;
        return scene;
    }
};

// A plane, in the drawing a line, that is looked at straight on; the frame's x goes to the right
// of who looks with z up.
struct Screen {
    glm::dvec2 centre{0};
    double facing = 0;  // angle in which it is looked at

    double place_of(const Prism::Ray& ray) const {
        const glm::dvec2 to = ray.origin - centre;
        const double t = -glm::dot(to, along(facing)) / std::cos(ray.angle - facing);
        const glm::dvec2 right(std::sin(facing), -std::cos(facing));
        return glm::dot(to + t * along(ray.angle), right);
    }
};

Point point_of(const glm::dvec2& p) {
    return Point(p, 0);
}

void add_screen(Scene& scene, const Screen& screen) {
    const MaterialId white = test::add_material(scene, test::lambertian("screen", 0.5F));
    const Vec3 right(std::sin(screen.facing), -std::cos(screen.facing), 0);
    const Vec3 up(0, 0, 1);
    const Point c = point_of(screen.centre);
    Mesh mesh;
    mesh.name = "screen";
    const auto corner = [&](float x, float y) { return c + 0.5F * (x * right + y * up); };
    test::add_quad(mesh, corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1), white);
    scene.room.push_back(mesh);
}

// A pinhole `distance` before the screen's centre, whose pixels are `pixel` m wide there.
void set_camera(
    Scene& scene, const Screen& screen, double distance, double pixel, int width, int height) {
    const glm::dvec2 position = screen.centre - distance * along(screen.facing);
    scene.camera = test::camera_at(point_of(position), point_of(screen.centre), width, height);
    scene.camera.frame = looking_frame(Direction(along(screen.facing), 0.0F), Direction(0, 0, 1));
    scene.camera.focal_length =
        static_cast<float>(scene.camera.sensor.x * distance / (width * pixel));
}

// A point whose intensity is Gaussian over the angle, `sigma` rad.
void add_beam(Scene& scene, const glm::dvec2& position, double angle, double sigma) {
    Fixture f = test::fixture_of(
        FixtureForm::kSpot, point_of(position), point_of(position + along(angle)), 10);
    f.source_diameter = 0;
    f.beam_angle = static_cast<float>(2 * sigma * std::sqrt(2 * std::log(2.0)));
    f.field_angle = static_cast<float>(2 * sigma * std::sqrt(2 * std::log(10.0)));
    scene.fixtures = {f};
}

// Where X, Y and Z lie in the mean, and how far Y is spread (standard deviation).
struct Spectrogram {
    std::array<double, 3> place{};
    double width_y = 0;
};

class Moments {
  public:
    void add(double place, const std::array<double, 3>& xyz) {
        for (size_t k = 0; k < 3; ++k) {
            sum_[k] += xyz[k];
            first_[k] += xyz[k] * place;
            second_[k] += xyz[k] * place * place;
        }
    }
    Spectrogram result() const {
        Spectrogram s;
        for (size_t k = 0; k < 3; ++k) s.place[k] = first_[k] / sum_[k];
        s.width_y = std::sqrt(second_[1] / sum_[1] - s.place[1] * s.place[1]);
        return s;
    }

  private:
    std::array<double, 3> sum_{}, first_{}, second_{};
};

Spectrogram read_film(const Film& film) {
    Moments moments;
    for (int i = 0; i < film.pixels(); ++i) {
        const Xyz c = film.resolve(i);
        moments.add(i % film.width() + 0.5, {c.x, c.y, c.z});
    }
    return moments.result();
}

// Sums over the spectrum the rays that `rays` adds for each index: where they land, and a weight.
using AddRay = std::function<void(double place, const Prism::Ray& ray, double weight)>;
Spectrogram expect(const Curve& lamp,
                   const std::function<void(double n, const AddRay& add)>& rays) {
    Moments moments;
    const Curve absorption = absorption_curve(kGlass, Tint::kClear);
    const Observer& eye = cie_1931();
    for (int j = 0; j < Curve::kSize; ++j) {
        rays(index_at(Curve::nm(j)), [&](double place, const Prism::Ray& ray, double weight) {
            const double w = weight * lamp[j] * ray.share * std::exp(-absorption[j] * ray.length);
            moments.add(place, {w * eye.x[j], w * eye.y[j], w * eye.z[j]});
        });
    }
    return moments.result();
}

// What several seeds give, after each of some numbers of passes.
using Runs = std::map<int, std::vector<Spectrogram>>;

Runs render(const Scene& scene,
            double footprint_px,
            double light_walks_per_pixel,
            const std::vector<int>& passes,
            int seeds) {
    const World world(scene);
    Runs runs;
    for (int seed = 1; seed <= seeds; ++seed) {
        RenderOptions options;
        options.seed = static_cast<uint64_t>(seed);
        options.passes = passes.back();
        options.max_bounces = 3;  // two faces and the screen
        options.light_walks_per_pixel = light_walks_per_pixel;
        options.footprint_px = footprint_px;
        options.on_pass = [&](const Progress& progress, const RenderResult& result) {
            for (const int n : passes) {
                if (n == progress.passes) runs[n].push_back(read_film(result.film));
            }
            return true;
        };
        render_frame(scene, world, options);
    }
    return runs;
}

Estimate over(const std::vector<Spectrogram>& runs,
              const std::function<double(const Spectrogram&)>& value) {
    const auto n = static_cast<double>(runs.size());
    double sum = 0;
    for (const Spectrogram& run : runs) sum += value(run) / n;
    double squares = 0;
    for (const Spectrogram& run : runs) squares += std::pow(value(run) - sum, 2);
    return {sum, std::sqrt(squares / (n * (n - 1)))};
}

double place_y(const Spectrogram& s) {
    return s.place[1];
}
double from_x_to_z(const Spectrogram& s) {
    return s.place[2] - s.place[0];
}
double width_y(const Spectrogram& s) {
    return s.width_y;
}

// Variance that the shares of pixels add, px²: a pixel's own width; or of ellipses of half-axis r,
// with shares 1 - q (E53), r²/6. Light walks are so many that ellipses have their least size.
double blur(double footprint_px, int passes) {
    if (!(footprint_px > 0)) return 1.0 / 12;
    double sum = 0;
    for (int i = 0; i < passes; ++i) {
        const auto r =
            static_cast<double>(splat_radii_of_pass(footprint_px, static_cast<uint32_t>(i)).least);
        sum += r * r / 6;
    }
    return sum / passes;
}
constexpr double kBlurKnown = 0.003;  // px; shares are taken at the centres of pixels

std::string conditions(double footprint_px, int passes) {
    return (footprint_px > 0 ? ", footprints on, " : ", footprints off, ") +
           std::to_string(passes) + " passes";
}

// A beam through the middle of a prism of 60°, a metre before and behind it, on to a screen.
struct Thrown {
    Prism prism{radians_from_degrees(60), 0.2};
    Prism::Ray chief;
    Screen screen;
    double pixel = 0;  // m
    double sigma = 0;  // rad, of the beam
    int width;

    Thrown(double span_px, int frame_width) : width(frame_width) {
        const double incidence = prism.symmetrical_incidence(middle_index());
        chief.angle = incidence - 0.5 * prism.apex;
        chief.origin = prism.middle_of_left() - along(chief.angle);
        const Prism::Ray beyond = prism.through(chief, middle_index());
        screen = {beyond.origin + along(beyond.angle), beyond.angle};
        const double ends[] = {screen.place_of(prism.through(chief, index_at(kFirstNm))),
                               screen.place_of(prism.through(chief, index_at(kLastNm)))};
        pixel = (ends[0] - ends[1]) / span_px;
        sigma = pixel / 2;  // of 2 m
    }

    Scene scene() const {
        Scene scene = prism.scene();
        add_screen(scene, screen);
        add_beam(scene, chief.origin, chief.angle, sigma);
        set_camera(scene, screen, 0.5, pixel, width, 24);
        return scene;
    }

    // In the plane; what the beam holds aside of it, at an angle of σ in the mean square, is turned
    // in the plane as by a slightly higher index (Bravais).
    Spectrogram expected(const Curve& lamp) const {
        return expect(lamp, [&](double index, const AddRay& add) {
            const double n = index + 0.5 * (index - 1 / index) * sigma * sigma;
            for (double step = -5; step <= 5; step += 0.25) {
                Prism::Ray ray = chief;
                ray.angle += step * sigma;
                const Prism::Ray beyond = prism.through(ray, n);
                const double place = 0.5 * width + screen.place_of(beyond) / pixel;
                add(place, beyond, std::exp(-0.5 * step * step));
            }
        });
    }
};

// A wedge of 2°, 3.5 mm thick where it is looked through, a metre before the camera; a metre behind
// it a patch, lit by a narrow lamp from between.
struct Seen {
    Prism prism{radians_from_degrees(2), 0.2};
    double from_lens = 1;
    double distance = 2;  // m, from the lens to the patch along the view axis
    Screen screen;
    glm::dvec2 lens{0};
    double pixel = 0;  // m, on the screen
    double sigma_px;   // of the patch
    int width;

    Seen(double span_px, double sigma, int frame_width) : sigma_px(sigma), width(frame_width) {
        lens = prism.middle_of_left() - glm::dvec2(from_lens, 0);
        // The patch is where the middle of the frame is seen to be.
        screen.centre = lens + glm::dvec2(distance, 0);
        screen.centre = landing(0, middle_index());
        pixel =
            distance * (heading_to(index_at(kFirstNm)) - heading_to(index_at(kLastNm))) / span_px;
    }

    Prism::Ray beyond(double heading, double n) const { return prism.through({lens, heading}, n); }
    glm::dvec2 landing(double heading, double n) const {
        const Prism::Ray ray = beyond(heading, n);
        const double t = (screen.centre.x - ray.origin.x) / std::cos(ray.angle);
        return ray.origin + t * along(ray.angle);
    }
    // In which the patch is seen, by secants.
    double heading_to(double n) const {
        double a = -0.01;
        double b = 0.01;
        const auto off = [&](double heading) { return landing(heading, n).y - screen.centre.y; };
        for (int i = 0; i < 8 && std::abs(b - a) > 1e-15; ++i) {
            const double slope = (off(b) - off(a)) / (b - a);
            a = std::exchange(b, b - off(b) / slope);
        }
        return b;
    }

    Scene scene() const {
        Scene scene = prism.scene();
        add_screen(scene, screen);
        add_beam(scene, screen.centre - glm::dvec2(0.5, 0), 0, sigma_px * pixel / 0.5);
        Screen looked_at = screen;
        looked_at.centre.y = lens.y;
        set_camera(scene, looked_at, distance, pixel, width, 24);
        return scene;
    }

    double place_of(double heading) const {
        return 0.5 * width - distance * std::tan(heading) / pixel;
    }
    // Without the wedge.
    double bare_place() const { return place_of(std::atan2(screen.centre.y - lens.y, distance)); }
    Spectrogram expected(const Curve& lamp) const {
        return expect(lamp, [&](double n, const AddRay& add) {
            const double heading = heading_to(n);
            add(place_of(heading), beyond(heading, n), 1);
        });
    }
    Spectrogram thin(const Curve& lamp) const {
        return expect(lamp, [&](double n, const AddRay& add) {
            const double seen = (distance - from_lens) / distance * (n - 1) * prism.apex;
            add(bare_place() - distance * seen / pixel, beyond(0, n), 1);
        });
    }
};

// Checks of one view, with footprints on or off, after some numbers of passes.
struct Conditions {
    double footprint_px;
    std::vector<int> passes;
    int seeds;
};

Allowance allow(double px, const std::string& reason) {
    return px > 0 ? Allowance{px, reason} : Allowance{};
}

// Where wavelengths are carried together (E70) they land by twos or fours in their mean place, each
// a third of a pixel off at most: what that may do to the place and the width of Y, and to the way
// from X to Z, px; the width by 0.3 px in quadrature at most. All wavelengths in the hero's place
// would miss by 0.3, 0.4 and 1.5 px where the spectrum is five pixels long.
struct Together {
    double place = 0, apart = 0, width = 0;
};

void check_thrown(double span_px, int frame_width, const Conditions& c, const Together& together) {
    const Thrown thrown(span_px, frame_width);
    const Scene scene = thrown.scene();
    const Spectrogram expected = thrown.expected(make_source_groups(scene.fixtures[0])[0].spectrum);
    const std::string reason =
        "neighbours in the spectrum land together, a third of a pixel off at most";
    const std::string blurred =
        "shares are of whole pixels" + (together.width > 0 ? "; " + reason : "");
    for (const auto& [passes, runs] : render(scene, c.footprint_px, 8, c.passes, c.seeds)) {
        const std::string of = " of a spectrum of " + figure(span_px) + " px on a screen" +
                               conditions(c.footprint_px, passes);
        kSubject.mean("Place of Y" + of,
                      kSource,
                      "px",
                      figure(place_y(expected)),
                      over(runs, place_y),
                      0.003,
                      allow(together.place, reason));
        kSubject.mean("From X to Z" + of,
                      kSource,
                      "px",
                      figure(from_x_to_z(expected)),
                      over(runs, from_x_to_z),
                      0.02,
                      allow(together.apart, reason));
        const double width = std::hypot(expected.width_y, std::sqrt(blur(c.footprint_px, passes)));
        kSubject.mean("Width of Y" + of,
                      kSource,
                      "px",
                      figure(width),
                      over(runs, width_y),
                      0.005,
                      {kBlurKnown + together.width, blurred});
    }
}

void check_seen(double span_px, double sigma_px, int frame_width, const Conditions& c) {
    const Seen seen(span_px, sigma_px, frame_width);
    const Scene scene = seen.scene();
    const Curve lamp = make_source_groups(scene.fixtures[0])[0].spectrum;
    const auto moved = [&](const Spectrogram& s) { return seen.bare_place() - s.place[1]; };
    const auto from_z_to_x = [](const Spectrogram& s) { return s.place[0] - s.place[2]; };
    const Spectrogram expected = seen.expected(lamp);
    const Spectrogram thin = seen.thin(lamp);
    // All wavelengths are seen in one place, the mean of those that are drawn (E74).
    const bool together = c.footprint_px > 0 && span_px < 0.5;
    const std::string reason = "wavelengths that part by less than half a pixel are seen together";
    const double place = together ? 0.1 * span_px : 0;
    const double apart = together ? 0.5 * span_px : 0;
    const std::string order =
        "second order in the angle; 3.5 mm of glass" + (together ? "; " + reason : "");
    for (const auto& [passes, runs] : render(scene, c.footprint_px, 0.01, c.passes, c.seeds)) {
        const std::string of = " of a patch behind a wedge of 2° that parts colours by " +
                               figure(span_px) + " px" + conditions(c.footprint_px, passes);
        kSubject.mean("Displacement of Y" + of,
                      kSource,
                      "px",
                      figure(moved(expected)),
                      over(runs, moved),
                      0.003,
                      allow(place, reason));
        kSubject.mean("Displacement of Y, by (n-1) A," + of,
                      kSource,
                      "px",
                      figure(moved(thin)),
                      over(runs, moved),
                      0.003,
                      {place + 0.0025 * moved(thin), order});
        kSubject.mean("From Z to X" + of,
                      kSource,
                      "px",
                      figure(from_z_to_x(expected)),
                      over(runs, from_z_to_x),
                      together || span_px < 5 ? 0.2 : 0.003,
                      allow(apart, reason));
        kSubject.mean("From Z to X, by (n-1) A," + of,
                      kSource,
                      "px",
                      figure(from_z_to_x(thin)),
                      over(runs, from_z_to_x),
                      together || span_px < 5 ? 0.2 : 0.003,
                      {apart + 0.0025 * from_z_to_x(thin), order});
    }
}

}  // namespace

TEST_CASE("a prism's spectrum of five pixels lies on the film as its deviation says") {
    check_thrown(5, 32, {2.5, {4, 16}, 24}, {0.01, 0.02, 0.04});
    check_thrown(5, 32, {0, {4, 16}, 24}, {});
}

TEST_CASE("a prism's spectrum of few or many pixels lies on the film as its deviation says" *
          doctest::test_suite("slow")) {
    for (const double footprint_px : {2.5, 0.0}) {
        check_thrown(60, 96, {footprint_px, {4, 16}, 24}, {});
        check_thrown(20, 48, {footprint_px, {16}, 24}, {});
    }
    check_thrown(3, 32, {2.5, {16}, 24}, {0.01, 0.02, 0.04});
    check_thrown(5, 32, {2.5, {64}, 24}, {0.01, 0.03, 0.04});
}

TEST_CASE("a patch seen through a wedge is displaced by the index less one times its angle") {
    check_seen(0.2, 1, 32, {2.5, {16, 64}, 12});
}

TEST_CASE("a wedge parts the colours of what is seen through it as the indices say" *
          doctest::test_suite("slow")) {
    check_seen(10, 3, 48, {2.5, {16, 64}, 24});
    check_seen(10, 3, 48, {0, {16}, 24});
    check_seen(0.2, 1, 32, {0, {64}, 48});
}
