// A light meter's receptor: a disc, a rectangle or half a sphere. Each of its points receives light
// by the cosine to the normal at the point.
//
//   reading E = Φ / A_front                                                             (E104)
// Φ is the flux that falls on the receptor, lm; A_front its area as seen from straight in front,
// m². A flat receptor reads the mean illuminance of its area. For light from the angle θ, a dome
// reads (1 + cosθ)/2 times its reading for the same light from straight ahead, because that share
// of half a sphere is seen from θ (the hemispherical receptor of ISO 2720:1974). A receptor without
// a size is a point: it reads in the same way at one place, and no light walk falls on it.
//
// Receptors are not bodies: they block no light.
#pragma once

#include "math/vec.h"
#include "scene/scene.h"

namespace dapple {

struct ReceptorPoint {
    Point position{0};
    Normal normal{0, 0, 1};
};

class Receptor {
  public:
    explicit Receptor(const Meter& meter);

    // A uniformly sampled point of the receptor. Its density is pdf_area() per m² (1 for a point).
    ReceptorPoint sample_point(float u, float v) const;
    // The direction of a walk that starts at the point. Its density is cosθ/π per sr.
    static Direction sample_direction(const ReceptorPoint& at, float u, float v);

    bool is_point() const { return is_point_; }
    float pdf_area() const { return pdf_area_; }
    // The reading of a walk that finds a luminance of 1 cd/m², lx.
    float lux_per_walk() const { return lux_per_walk_; }
    // The reading of one lumen that falls on the receptor, lx.
    float lux_per_lumen() const { return lux_per_lumen_; }

    // Where light along a ray falls on the receptor's front.
    struct Crossing {
        ReceptorPoint at;
        float t = 0;          // along the ray, m
        float cos_front = 0;  // to the normal at the point
    };
    // False if the ray does not meet the front before `t_max`.
    bool crossed_by(const Ray& ray, float t_max, Crossing& crossing) const;

  private:
    bool crossed_flat(const Ray& ray, float t_max, Crossing& crossing) const;
    bool crossed_dome(const Ray& ray, float t_max, Crossing& crossing) const;

    ReceptorKind kind_;
    Point centre_;
    Frame frame_;
    float radius_ = 0;
    Vec2 half_{0};  // of a rectangle
    bool is_point_ = true;
    float pdf_area_ = 1;
    float lux_per_walk_ = kPiF;
    float lux_per_lumen_ = 0;
};

}  // namespace dapple
