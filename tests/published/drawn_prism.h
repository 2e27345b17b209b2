// A prism's spectrum on the film: the drawing of a prism, a screen and a camera in the plane across
// the prism, the places at which its light is expected, and those at which it is rendered.
//
// In that plane a ray is deviated by (Hecht, Optics)
//   δ(λ) = i + asin(sinA √(n² - sin²i) - sin i cosA) - A
// with n(λ) of the catalogue's lead crystal. Expected places follow from δ. They are weighted by
// the lamp's spectrum, the CIE 1931 observer, Fresnel's shares at both faces (light taken as
// unpolarised at each, as it is traced) and the glass's absorption, and summed over 380 to 780 nm.
// Lengths on the film are in px.
//
// Places are centroids of X, Y and Z along the spectrum; standard errors are those of several
// seeds. The beam is Gaussian, and the expected places are summed over it. Its standard deviation
// is about one pixel, so that a centroid changes by less than 1e-6 px with the place of a ray in
// its pixel. Paths end at the screen: no light arrives in another way.
#pragma once

#include <array>
#include <functional>
#include <map>
#include <vector>

#include "film/film.h"
#include "published/published.h"
#include "scene/scene.h"

namespace dapple::published::drawn_prism {

inline constexpr double kFirstNm = 380;
inline constexpr double kLastNm = 780;

double index_at(double nm);
// The mean of the indices at both ends of the spectrum.
double middle_index();

// The direction at an angle from +x towards +y.
glm::dvec2 along(double angle);

// A prism with its apex at (0, height) and its base in y = 0. Rays go from left to right. Angles
// are counted from +x towards +y.
struct Prism {
    double apex;    // rad
    double height;  // m

    struct Ray {
        glm::dvec2 origin;
        double angle;
        double share = 1;   // that Fresnel's formulas transmit
        double length = 0;  // m, in the glass
    };

    glm::dvec2 middle_of_left() const;
    double symmetrical_incidence(double n) const;
    double deviation(double incidence, double n) const;
    // The ray behind the prism.
    Ray through(const Ray& ray, double n) const;
    Scene scene() const;
};

// A plane, a line in the drawing, seen by a camera at a right angle. The frame's x is to the right
// for a viewer with z up.
struct Screen {
    glm::dvec2 centre{0};
    double facing = 0;  // angle of the viewing direction

    double place_of(const Prism::Ray& ray) const;
};

void add_screen(Scene& scene, const Screen& screen);

// A pinhole camera at `distance` in front of the screen's centre. Its pixels are `pixel` m wide on
// the screen.
void set_camera(
    Scene& scene, const Screen& screen, double distance, double pixel, int width, int height);

// A point source whose intensity is Gaussian over the angle, with `sigma` in rad.
void add_beam(Scene& scene, const glm::dvec2& position, double angle, double sigma);

// The centroids of X, Y and Z, and the standard deviation of Y.
struct Spectrogram {
    std::array<double, 3> place{};
    double width_y = 0;
};

// Sums over the spectrum. `rays` adds, for each index, rays with their places and weights.
using AddRay = std::function<void(double place, const Prism::Ray& ray, double weight)>;
Spectrogram expect(const Curve& lamp, const std::function<void(double n, const AddRay& add)>& rays);

// The spectrograms of several seeds, by number of passes.
using Runs = std::map<int, std::vector<Spectrogram>>;
Runs render_runs(const Scene& scene,
                 double footprint_px,
                 double light_walks_per_pixel,
                 const std::vector<int>& passes,
                 int seeds);

// The mean of a value over runs.
Estimate mean_over(const std::vector<Spectrogram>& runs,
                   const std::function<double(const Spectrogram&)>& value);

double place_y(const Spectrogram& s);
double from_x_to_z(const Spectrogram& s);
double width_y(const Spectrogram& s);

// The variance that is added by the division of light among pixels, px². Without footprints that is
// the width of a pixel; with ellipses of half-axis r and weights 1 - q (E107) it is r²/6. There are
// so many light walks that ellipses have their least size.
double blur(double footprint_px, int passes);
inline constexpr double kBlurKnown = 0.003;  // px; weights are taken at the centres of pixels

}  // namespace dapple::published::drawn_prism
