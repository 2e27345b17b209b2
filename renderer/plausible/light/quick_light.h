// A quick estimate of the light in a room, good to a stop or so: to say that a picture is black or
// burnt out, not how it looks.
//
// Direct light of every fixture and window, and light that is scattered once: some dozens of
// rays from the lamps end as small lamps where they meet a surface (instant radiosity, Keller
// 1997; E177). Cloth sends light on around the ray as cos^m, with half of the intensity at its
// spread; other surfaces scatter it evenly. Glass is passed straight and keeps 0.96 of it at each
// surface; where a ray enters glass, a tenth of it also goes everywhere ahead, as ripples do.
#pragma once

#include <vector>

#include "fixtures/emitter.h"
#include "plausible/staged_set.h"

namespace dapple {

// A place on a surface, and the side that counts.
struct LitPlace {
    Point position{0};
    Normal normal{0, 1, 0};
};

class QuickLight {
  public:
    explicit QuickLight(const StagedSet& set);

    // Illuminance, lx. `direct`: of the lamps alone, without scattered light.
    double direct(const LitPlace& place) const;
    double direct_of(size_t fixture, const LitPlace& place) const;
    double all(const LitPlace& place) const;
    // Of a surface that is seen along `direction`, cd/m².
    double luminance(const SurfacePoint& at, const Direction& direction) const;
    // The same by the light alone that comes from lamps past no glass and is not scattered: exact
    // for small lamps and matte surfaces, and never too bright.
    double sure_luminance(const SurfacePoint& at, const Direction& direction) const;

    // Whether glass stands between the fixture and the place.
    bool is_past_glass(size_t fixture, const Point& place) const;

    const std::vector<Emitter>& emitters() const { return emitters_; }

  private:
    struct SmallLamp {
        Point position{0};
        Direction axis{0, 1, 0};
        float exponent = 1;  // of the cosine
        float candela = 0;   // on the axis
    };

    void add_small_lamps(size_t fixture, int rays);
    void end_ray(const SurfacePoint& at, const Direction& direction, float lumens);
    double of_small_lamp(const SmallLamp& lamp, const LitPlace& place) const;
    // The share of the light that passes from one point to the other.
    float passes(const Point& from, const Point& to, int lamp) const;

    const StagedSet set_;
    std::vector<Emitter> emitters_;
    std::vector<SmallLamp> small_lamps_;
};

}  // namespace dapple
