// A lens of glass as the camera draws with it: rays from the film out through the exact surfaces,
// and points of the scene onto the film. Vignetting, distortion, curvature of the field and colour
// fringes come of that by themselves.
//
// E illuminance on the film, T what the lens passes along its axis, G₀ = ∫ dG at the film's middle:
//   L = E/(T G₀),   E = ∫ L T(ray) dG,   dG = cos⁴θ/Z² dA_p = cosθ' dA dω'                  (E130)
// dA_p on the plane of the exit pupil at the distance Z before the film, θ on the film; dA on the
// plane of the entrance pupil, θ' and ω' in the scene (conservation of étendue). At its middle the
// picture thus has the exposure of a thin lens with the set's f-number, whatever near focus and the
// glass cost. In first order G₀ = π/(4N²), N the working f-number.
// From the film, rays are drawn evenly from the box around what gets through at that distance from
// the axis (pilot rays; after Kolb, Mitchell and Hanrahan 1995). From the scene, points are drawn
// evenly from a disc on the plane of the entrance pupil, whose middle follows the pupil. A drawn
// ray may meet a rim or a blade: then it brings no light.
//
// Frame: the camera's, right, up, forwards from the entrance pupil. Units: mm.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "lenses/real_lens.h"

namespace dapple {

class DrawnLens {
  public:
    explicit DrawnLens(const Camera& camera);

    // A ray in the scene that starts on the plane of the entrance pupil.
    struct SceneRay {
        DVec2 on_pupil{0};
        LensVec direction{0, 0, 1};  // away from the lens
        double cosine = 1;           // to the axis
        // What a pixel gets of the ray's light, T(ray) aside: if sample() has drawn the ray, and
        // per sr if its point has been drawn from the disc (value times density).
        double value = 0, response = 0;
        double density = 0;     // of sample() in directions, with the point from the disc; per sr
        Spectrum passed{1.0F};  // T(ray) over that along the axis, at the eight bands
    };
    // Through a place of the film (mm, as the picture shows it: right and down from its top left).
    // (u, v) chooses the point of the pupil. Nothing if the ray does not get through.
    std::optional<SceneRay> sample(const DVec2& place, double u, double v, double nm) const;

    // The point of the pupil's disc by (u, v) for a point of the scene.
    DVec2 point_on_pupil(const LensVec& scene, double u, double v) const;
    struct Arrival {
        DVec2 place{0};  // on the film, as above
        SceneRay ray;
    };
    // Where light from the point arrives that is aimed at a point of the pupil's plane.
    std::optional<Arrival> project(const LensVec& scene, const DVec2& on_pupil, double nm) const;

    // Whether colours part by so much that each wavelength needs a ray of its own.
    bool splits_colours() const { return splits_colours_; }
    const RealLens& lens() const { return lens_; }
    double axis_light() const { return axis_light_; }  // G₀, sr

  private:
    struct Box {
        DVec2 low{0}, high{0};
        double area() const { return (high.x - low.x) * (high.y - low.y); }
    };
    // What gets through from one distance from the axis, which is along x.
    struct Pilot {
        Box box;                               // on the plane of the exit pupil
        double tangent = 0;                    // of the light's middle, in the scene
        double low = 0, high = 0, half_y = 0;  // on the plane of the entrance pupil
        bool is_dark = true;
    };
    Pilot look_from(double radius) const;
    Pilot look_over(double radius, const Box& box) const;
    void find_disc(const std::vector<Pilot>& pilots);
    double find_axis_light() const;
    double spread_of_colours() const;  // mm on the film
    const Box& box_at(double radius) const;
    // From the film to the scene.
    struct Outwards {
        DVec2 on_pupil{0};
        LensVec direction{0, 0, 1};
        double cos_film = 1;
        Spectrum passed{1.0F};
    };
    std::optional<Outwards> trace_out(const DVec2& film, const DVec2& on_exit, double nm) const;
    // What light over a box on the plane of the exit pupil counts at the film, sr.
    double over_box(const Outwards& out, const Box& box) const;
    SceneRay scene_ray(const Outwards& out, double film_radius) const;

    RealLens lens_;
    DVec2 half_film_{0};      // mm
    double pixel_area_ = 1;   // mm²
    double pixel_width_ = 1;  // mm
    double widest_ = 1;       // mm, of the film
    std::vector<Box> boxes_;  // by distance from the axis
    double axis_light_ = 1;
    double disc_radius_ = 1;
    double widest_tangent_ = 1;
    std::vector<double> disc_middles_;  // by tangent
    bool splits_colours_ = false;
};

}  // namespace dapple
