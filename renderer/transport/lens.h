// The camera: a thin lens (E80) with a round aperture, or a pinhole if the set gives no focus. A
// pixel's value is the mean luminance over its area and the aperture. There is no vignetting. With
// draw = "lens" rays go through a lens of glass (lenses/drawn_lens.h): some do not get through, and
// those at the edge count for less.
//
// Raster coordinates: pixels from the top left, x right, y down. Densities of directions are per
// steradian for one pixel: the solid angle of a pixel integrates to 1 (E82).
#pragma once

#include <cmath>
#include <memory>

#include "math/vec.h"
#include "scene/scene.h"
#include "spectrum/spectrum.h"

namespace dapple {

class DrawnLens;

// Where a ray of the lens starts.
struct LensStart {
    Vec2 raster{0};
    Vec2 aperture{0.5F};  // two uniform numbers that choose the point on the aperture
    int hero = 0;         // index of the walk's own wavelength
};

class Lens {
  public:
    // `draws`: through the glass, if the camera asks for it; that takes a tenth of a second to
    // prepare. Else a thin lens, for estimates.
    explicit Lens(const Camera& camera, bool draws = false);

    bool is_pinhole() const { return aperture_radius_ <= 0; }

    struct RaySample {
        Ray ray;
        float pdf_direction = 0;  // 0: the ray does not get through a lens of glass
        float value = 1;          // of the light of this ray in the pixel
        Spectrum passed{1.0F};    // at the eight bands of lens_wavelengths.h
    };
    // The ray through a raster position. (u, v) chooses the point on the aperture.
    RaySample sample_ray(const Vec2& raster, float u, float v, float nm = 550) const;

    struct Projection {
        Point lens_point{0};
        Vec2 raster{0};
        Direction to_lens{0, 0, 1};  // from the projected point
        float distance = 0;
        float pdf_direction = 0;  // of the ray from the lens to the point
        float response = 0;       // of the pixel, per sr; that of a thin lens is `pdf_direction`
        Spectrum passed{1.0F};    // as in RaySample
    };
    // Where a point is seen through the aperture's point (u, v). False if it is outside the frame
    // or its light does not get through.
    bool project(
        const Point& point, float u, float v, Projection& projection, float nm = 550) const;

    // Whether each wavelength needs a ray of its own.
    bool splits_colours() const;
    bool is_glass() const { return drawn_ != nullptr; }

    // How far the projection of `point` through the lens's centre moves, in px, when the point
    // moves by `step`; to first order.
    Vec2 raster_change(const Point& point, const Vec3& step) const;

    // Width of a pixel at a distance along the view axis, m.
    float pixel_width_at(float depth) const { return pixel_.x / plane_ * depth; }
    // Diameter of the spot that a point at a distance along the view axis becomes, px.
    float blur_px(float depth) const {
        return 2.0F * aperture_radius_ * std::abs(depth - plane_) / (depth * pixel_.x);
    }
    const Frame& frame() const { return frame_; }
    const Point& position() const { return position_; }

  private:
    Point aperture_point(float u, float v) const;
    float pdf_direction(float cos_axis) const;
    RaySample sample_drawn(const Vec2& raster, float u, float v, float nm) const;
    bool project_drawn(
        const Point& point, float u, float v, float nm, Projection& projection) const;

    std::shared_ptr<const DrawnLens> drawn_;  // nullptr: a thin lens
    Point position_;
    Frame frame_;
    Vec2 film_half_{0};  // m
    float aperture_radius_ = 0;
    float plane_ = 1;  // m, distance of the plane of sharp focus
    Vec2 half_{0};     // m, half the frame on that plane
    Vec2 pixel_{0};    // m, one pixel on that plane
    int width_ = 0;
    int height_ = 0;
};

}  // namespace dapple
