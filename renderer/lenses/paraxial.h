// First-order optics of a lens: 2 x 2 matrices on (height y, slope u along the light).
//
//   gap t: [1 t; 0 1]     refraction: [1 0; -(n' - n)/(R n')  n/n']     reflection: [1 0; 2/R 1]
//                                                                                          (E117)
// R counts along the travel of the light: -R on the way back. (Born and Wolf, Principles of Optics;
// ghosts by first order: Lee and Eisemann 2013.)
#pragma once

#include <vector>

#include "lenses/light_route.h"
#include "lenses/prescription.h"

namespace dapple {

struct RayMatrix {
    double a = 1, b = 0, c = 0, d = 1;

    // This one after `first`.
    RayMatrix after(const RayMatrix& first) const {
        return {a * first.a + b * first.c,
                a * first.b + b * first.d,
                c * first.a + d * first.c,
                c * first.b + d * first.d};
    }
};

class Paraxial {
  public:
    Paraxial(const Prescription& lens, double nm) : lens_(lens), nm_(nm) {}

    double focal_length() const;
    double back_focus() const;  // from the last vertex, for an object far away
    // From the last vertex to the image of an object at `distance` before the first vertex.
    double image_distance(double distance) const;
    // Depth of the entrance pupil behind the first vertex, and the height at the stop of a ray
    // parallel to the axis at height 1.
    double entrance_pupil() const;
    double height_at_stop() const;
    // Where the film sees the stop: behind the last vertex (below 0: before it), and how large.
    struct ExitPupil {
        double distance = 0;  // mm
        double magnification = 1;
    };
    ExitPupil exit_pupil() const;

    // The matrix from the first vertex to the plane at `film_z`, and those to every surface that
    // the route meets, in order.
    RayMatrix to_film(const LightRoute& route, double film_z) const;
    std::vector<RayMatrix> to_surfaces(const LightRoute& route) const;

  private:
    RayMatrix through() const;      // to just behind the last surface
    RayMatrix front_group() const;  // to the stop

    const Prescription& lens_;
    double nm_;
};

}  // namespace dapple
