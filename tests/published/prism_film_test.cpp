// Light sent through a prism onto a screen, and a patch seen through a wedge, on the film
// (drawn_prism.h).
#include <doctest/doctest.h>

#include <cmath>
#include <utility>

#include "base/units.h"
#include "fixtures/source_groups.h"
#include "published/drawn_prism.h"

namespace prism_film_test {

using namespace dapple;
using namespace dapple::published;
using namespace dapple::published::drawn_prism;

namespace {

const Subject kSubject("Prisms on the film");
const char* const kSource = "Hecht, Optics; CIE 1931; dispersion formula, Polyanskiy 2024";

std::string conditions(double footprint_px, int passes) {
    return (footprint_px > 0 ? ", footprints on, " : ", footprints off, ") +
           std::to_string(passes) + " passes";
}

// A beam through the middle of a prism of 60°, from 1 m in front of it to a screen 1 m behind it.
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
        sigma = pixel / 2;  // one pixel at 2 m
    }

    Scene scene() const {
        Scene scene = prism.scene();
        add_screen(scene, screen);
        add_beam(scene, chief.origin, chief.angle, sigma);
        set_camera(scene, screen, 0.5, pixel, width, 24);
        return scene;
    }

    // Computed in the plane. Rays at an angle to the plane, σ in the root mean square, are deviated
    // as if the index were slightly higher (Bravais).
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

// A patch 1 m behind a wedge of 2°, seen through the wedge by a camera 1 m in front of it. The
// wedge is 3.5 mm thick at the line of sight. A narrow lamp between the wedge and the patch lights
// the patch.
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
        // The patch is at the place that the middle of the frame shows.
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
    // The direction in which the patch is seen, by the secant method.
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
    // The place of the patch without the wedge.
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

// Conditions of the checks: footprints on or off, the numbers of passes, the seeds.
struct Conditions {
    double footprint_px;
    std::vector<int> passes;
    int seeds;
};

Allowance allow(double px, const std::string& reason) {
    return px > 0 ? Allowance{px, reason} : Allowance{};
}

// Allowances for wavelengths that are carried together (E78), px: for the place of Y, the distance
// from X to Z, and the width of Y. Two or four wavelengths land in their mean place, each a third
// of a pixel off at most. That changes the width by 0.3 px in quadrature at most. If all
// wavelengths landed in the hero's place, the errors would be 0.3, 0.4 and 1.5 px for a spectrum of
// five pixels.
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
        "weights are of whole pixels" + (together.width > 0 ? "; " + reason : "");
    for (const auto& [passes, runs] : render_runs(scene, c.footprint_px, 8, c.passes, c.seeds)) {
        const std::string of = " of a spectrum of " + figure(span_px) + " px on a screen" +
                               conditions(c.footprint_px, passes);
        kSubject.mean("Place of Y" + of,
                      kSource,
                      "px",
                      figure(place_y(expected)),
                      mean_over(runs, place_y),
                      {0.003, allow(together.place, reason)});
        kSubject.mean("From X to Z" + of,
                      kSource,
                      "px",
                      figure(from_x_to_z(expected)),
                      mean_over(runs, from_x_to_z),
                      {0.02, allow(together.apart, reason)});
        const double width = std::hypot(expected.width_y, std::sqrt(blur(c.footprint_px, passes)));
        kSubject.mean("Width of Y" + of,
                      kSource,
                      "px",
                      figure(width),
                      mean_over(runs, width_y),
                      {0.005, {kBlurKnown + together.width, blurred}});
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
    // All wavelengths are seen in one place, the mean of those drawn (E79).
    const bool together = c.footprint_px > 0 && span_px < 0.5;
    const std::string reason = "wavelengths that part by less than half a pixel are seen together";
    const double place = together ? 0.1 * span_px : 0;
    const double apart = together ? 0.5 * span_px : 0;
    const std::string order =
        "second order in the angle; 3.5 mm of glass" + (together ? "; " + reason : "");
    for (const auto& [passes, runs] : render_runs(scene, c.footprint_px, 0.01, c.passes, c.seeds)) {
        const std::string of = " of a patch behind a wedge of 2° that parts colours by " +
                               figure(span_px) + " px" + conditions(c.footprint_px, passes);
        kSubject.mean("Displacement of Y" + of,
                      kSource,
                      "px",
                      figure(moved(expected)),
                      mean_over(runs, moved),
                      {0.003, allow(place, reason)});
        kSubject.mean("Displacement of Y, by (n-1) A," + of,
                      kSource,
                      "px",
                      figure(moved(thin)),
                      mean_over(runs, moved),
                      {0.003, {place + 0.0025 * moved(thin), order}});
        kSubject.mean("From Z to X" + of,
                      kSource,
                      "px",
                      figure(from_z_to_x(expected)),
                      mean_over(runs, from_z_to_x),
                      {together || span_px < 5 ? 0.2 : 0.003, allow(apart, reason)});
        kSubject.mean(
            "From Z to X, by (n-1) A," + of,
            kSource,
            "px",
            figure(from_z_to_x(thin)),
            mean_over(runs, from_z_to_x),
            {together || span_px < 5 ? 0.2 : 0.003, {apart + 0.0025 * from_z_to_x(thin), order}});
    }
}

}  // namespace

TEST_CASE("a prism's spectrum of five pixels is on the film where its deviation says" *
          doctest::test_suite("slow")) {
    check_thrown(5, 32, {2.5, {4, 16}, 24}, {0.01, 0.02, 0.04});
    check_thrown(5, 32, {0, {4, 16}, 24}, {});
}

TEST_CASE("a prism's spectrum of few or many pixels is on the film where its deviation says" *
          doctest::test_suite("slow")) {
    for (const double footprint_px : {2.5, 0.0}) {
        check_thrown(60, 96, {footprint_px, {4, 16}, 24}, {});
        check_thrown(20, 48, {footprint_px, {16}, 24}, {});
    }
    check_thrown(3, 32, {2.5, {16}, 24}, {0.01, 0.02, 0.04});
    check_thrown(5, 32, {2.5, {64}, 24}, {0.01, 0.03, 0.04});
}

TEST_CASE("a patch seen through a wedge is displaced by (n - 1) times the wedge's angle") {
    check_seen(0.2, 1, 32, {2.5, {16, 64}, 12});
}

TEST_CASE("a wedge separates the colours of a patch behind it as the indices say" *
          doctest::test_suite("slow")) {
    check_seen(10, 3, 48, {2.5, {16, 64}, 24});
    check_seen(10, 3, 48, {0, {16}, 24});
    check_seen(0.2, 1, 32, {0, {64}, 48});
}

}  // namespace prism_film_test
