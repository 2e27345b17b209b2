// A light meter's receptor as walks see it: a disc, a rectangle or half a sphere whose every point
// takes light by the cosine to its own normal.
//
//   reading E = Φ / A_front                                                              (E60)
// Φ lm that fall on it, A_front m² as seen from straight in front.
// A flat receptor reads the mean illuminance of its area. A dome reads (1 + cosθ)/2 of what light
// from the angle θ would read straight on, as half a sphere shows that much of itself (the
// hemispherical receptor of ISO 2720:1974). One without a size is a point: the same, seen from one
// place, and no light walk meets it.
//
// Receptors are not bodies: they stand in no light's way.
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

    // A point of it, uniformly; its density is pdf_area() per m² (of a point: 1).
    ReceptorPoint sample_point(float u, float v) const;
    // The direction of a walk that starts there, by the cosine; its density is cosθ/π per sr.
    static Direction sample_direction(const ReceptorPoint& at, float u, float v);

    bool is_point() const { return is_point_; }
    float pdf_area() const { return pdf_area_; }
    // What such a walk reads of a luminance of 1 cd/m², lx.
    float lux_per_walk() const { return lux_per_walk_; }
    // What it reads of a lumen that falls on it, lx.
    float lux_per_lumen() const { return lux_per_lumen_; }

    // Where light along the ray falls on its front before `t_max`; t is the way to there.
    struct Crossing {
        ReceptorPoint at;
        float t = 0;
        float cos_front = 0;  // to the normal there
    };
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
