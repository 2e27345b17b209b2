// The camera: a thin lens (E80) with a round aperture, or a pinhole if the set gives no focus. A
// pixel's value is the mean luminance over its area and the aperture. There is no vignetting.
//
// Raster coordinates: pixels from the top left, x right, y down. Densities of directions are per
// steradian for one pixel: the solid angle of a pixel integrates to 1 (E82).
#pragma once

#include "math/vec.h"
#include "scene/scene.h"

namespace dapple {

// Where a ray of the lens starts.
struct LensStart {
    Vec2 raster{0};
    Vec2 aperture{0.5F};  // two uniform numbers that choose the point on the aperture
    int hero = 0;         // index of the walk's own wavelength
};

class Lens {
  public:
    explicit Lens(const Camera& camera);

    bool is_pinhole() const { return aperture_radius_ <= 0; }

    struct RaySample {
        Ray ray;
        float pdf_direction = 0;
    };
    // The ray through a raster position. (u, v) chooses the point on the aperture.
    RaySample sample_ray(const Vec2& raster, float u, float v) const;

    struct Projection {
        Point lens_point{0};
        Vec2 raster{0};
        Direction to_lens{0, 0, 1};  // from the projected point
        float distance = 0;
        float pdf_direction = 0;  // of the ray from the lens to the point
    };
    // Where a point is seen through the aperture's point (u, v). False if it is outside the frame.
    bool project(const Point& point, float u, float v, Projection& projection) const;

    // How far the projection of `point` through the lens's centre moves, in px, when the point
    // moves by `step`; to first order.
    Vec2 raster_change(const Point& point, const Vec3& step) const;

    // Width of a pixel at a distance along the view axis, m.
    float pixel_width_at(float depth) const { return pixel_.x / plane_ * depth; }
    const Frame& frame() const { return frame_; }
    const Point& position() const { return position_; }

  private:
    Point aperture_point(float u, float v) const;
    float pdf_direction(float cos_axis) const;

    Point position_;
    Frame frame_;
    float aperture_radius_ = 0;
    float plane_ = 1;  // m, distance of the plane of sharp focus
    Vec2 half_{0};     // m, half the frame on that plane
    Vec2 pixel_{0};    // m, one pixel on that plane
    int width_ = 0;
    int height_ = 0;
};

}  // namespace dapple
