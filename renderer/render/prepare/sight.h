// What the lens sees at a raster position, for the clean frame: through smooth glass and in mirrors
// it is the surface behind them.
#pragma once

#include "film/seen_points.h"
#include "render/prepare/setup.h"

namespace dapple {

class Sight {
  public:
    // `lens`: the setup's, or one of the same camera with other pixels.
    Sight(const Setup& setup, const Lens& lens);
    Sight(const Sight&) = delete;  // the stage points into it
    Sight& operator=(const Sight&) = delete;

    // `aperture`: two numbers from 0 to 1 that choose the point on the aperture.
    SeenPoint look(const Vec2& raster, const Vec2& aperture = Vec2(0.5F)) const;
    // Of what the ray meets first, m along the view axis; infinity if nothing.
    float first_depth(const Vec2& raster, const Vec2& aperture) const;
    // Whether the way to what a pixel saw is one ray that meets none of these.
    bool is_clear_of(const std::vector<Bounds>& bounds,
                     const Vec2& raster,
                     const SeenPoint& seen) const;

  private:
    SeenPoint first_surface(const Ray& ray) const;
    bool may_look_on(MaterialId id) const;
    // Replaces what is seen by what is seen behind its smooth surfaces.
    void look_on(const Ray& ray, SeenPoint& seen) const;

    const Setup& setup_;
    const Lens& lens_;
    Wavelengths wavelengths_;
    PassMaterials materials_;
    Stage stage_;
};

}  // namespace dapple
