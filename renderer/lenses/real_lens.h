// A lens as it is set: scaled, focused, stopped down, coated.
//
// The stop is a polygon of m blades with its corners on the radius r_s. It has the area of the
// round stop that the f-number asks for, so the exposure is the f-number's: (E119)
//   round radius = A f/(2N),  r_s² (m/2) sin(2π/m) = π (round radius)²
// where A is the height at the stop of a ray parallel to the axis at height 1.
#pragma once

#include <vector>

#include "lenses/coating.h"
#include "lenses/light_route.h"
#include "lenses/prescription.h"
#include "spectrum/spectrum.h"

namespace dapple {

using LensVec = glm::dvec3;  // mm, z along the light, x and y as on the film

// Reflectance of one surface at the eight wavelengths, by the cosine in the rarer medium.
class SurfaceReflectance {
  public:
    SurfaceReflectance() = default;
    SurfaceReflectance(const LensSurface& surface, LensCoating coating);
    Spectrum at(double cos_rarer) const;

  private:
    std::vector<Spectrum> table_;
};

// Polygon with its corners on `radius`, the first at the angle `turn`; without blades a disc.
struct StopShape {
    double radius = 1;  // mm, of the corners
    int blades = 0;
    double turn = 0;  // rad

    bool passes(double x, double y) const;
};

class RealLens {
  public:
    // Focused and stopped down at 550 nm.
    explicit RealLens(const Camera& camera);

    const Prescription& glass() const { return glass_; }
    double focal_length() const { return focal_length_; }
    double film_z() const { return film_z_; }
    double f_number() const { return f_number_; }     // as set, or the widest that the lens has
    bool is_wide_open() const { return wide_open_; }  // narrower than the f-number asks for
    const StopShape& stop() const { return stop_; }
    double front_radius() const { return glass_.surfaces.front().free_radius; }
    double entrance_depth() const { return entrance_depth_; }    // mm behind the first vertex
    double entrance_radius() const { return entrance_radius_; }  // mm
    const SurfaceReflectance& reflectance(size_t surface) const { return reflectance_[surface]; }
    // Of the light on the film: the exit pupil's distance over its diameter. Above f_number() when
    // the lens is focused near.
    double working_f_number() const { return working_f_number_; }
    double exit_z() const { return exit_z_; }            // mm, of the exit pupil
    double exit_radius() const { return exit_radius_; }  // mm
    // The same with the stop turned by an angle, rad.
    RealLens turned(double angle) const;
    // What passes along the axis, at the eight wavelengths.
    const Spectrum& axis_transmittance() const { return axis_transmittance_; }

  private:
    void set_stop(const Camera& camera);

    Prescription glass_;
    double focal_length_ = 50;  // mm
    double film_z_ = 0;
    double f_number_ = 4;
    double working_f_number_ = 4;
    double exit_z_ = 0;
    double exit_radius_ = 0;
    bool wide_open_ = false;
    StopShape stop_;
    double entrance_depth_ = 0;
    double entrance_radius_ = 0;
    std::vector<SurfaceReflectance> reflectance_;
    Spectrum axis_transmittance_;
};

}  // namespace dapple
