#include "transport/lens.h"

#include "lenses/drawn_lens.h"
#include "math/warps.h"

namespace dapple {

Lens::Lens(const Camera& camera, bool draws)
    : position_(camera.position),
      frame_(camera.frame),
      film_half_(0.5F * camera.sensor),
      width_(camera.width),
      height_(camera.height) {
    float image_distance = camera.focal_length;
    if (camera.focus_distance > 0) {
        // Thin lens, 1/f = 1/s + 1/s' (E80). Close focus narrows the view.
        plane_ = camera.focus_distance;
        image_distance = 1.0F / (1.0F / camera.focal_length - 1.0F / plane_);
        aperture_radius_ = 0.5F * camera.focal_length / camera.f_number;
    }
    half_ = 0.5F * camera.sensor * (plane_ / image_distance);
    pixel_ = Vec2(2.0F * half_.x / static_cast<float>(width_),
                  2.0F * half_.y / static_cast<float>(height_));
    if (draws && camera.lens.draws && camera.lens.is_glass())
        drawn_ = std::make_shared<const DrawnLens>(camera);
}

bool Lens::splits_colours() const {
    return drawn_ && drawn_->splits_colours();
}

Point Lens::aperture_point(float u, float v) const {
    if (aperture_radius_ <= 0) return position_;
    const Vec2 d = aperture_radius_ * sample_disk(u, v);
    return position_ + frame_.s * d.x + frame_.t * d.y;
}

float Lens::pdf_direction(float cos_axis) const {
    return square(plane_) / (pixel_.x * pixel_.y * cos_axis * cos_axis * cos_axis);
}

Lens::RaySample Lens::sample_drawn(const Vec2& raster, float u, float v, float nm) const {
    const DVec2 film = 2e3 * static_cast<double>(film_half_.x) / width_ * DVec2(raster);
    RaySample sample;
    const auto ray = drawn_->sample(film, u, v, nm);
    if (!ray) return sample;
    const DVec2 at = 1e-3 * ray->on_pupil;
    sample.ray.origin = position_ + frame_.to_world(Vec3(at.x, at.y, 0));
    sample.ray.direction = glm::normalize(frame_.to_world(Vec3(ray->direction)));
    sample.pdf_direction = static_cast<float>(ray->density);
    sample.value = static_cast<float>(ray->value);
    sample.passed = ray->passed;
    return sample;
}

bool Lens::project_drawn(
    const Point& point, float u, float v, float nm, Projection& projection) const {
    const Vec3 local = frame_.to_local(point - position_);
    if (local.z <= 1e-4F) return false;
    const LensVec scene = 1e3 * LensVec(local);
    const auto arrival = drawn_->project(scene, drawn_->point_on_pupil(scene, u, v), nm);
    if (!arrival) return false;
    const DVec2 at = 1e-3 * arrival->ray.on_pupil;
    projection.lens_point = position_ + frame_.to_world(Vec3(at.x, at.y, 0));
    const Vec3 from_lens = point - projection.lens_point;
    projection.distance = glm::length(from_lens);
    projection.to_lens = -from_lens / projection.distance;
    projection.raster = Vec2(arrival->place * (width_ / (2e3 * static_cast<double>(film_half_.x))));
    projection.pdf_direction = static_cast<float>(arrival->ray.density);
    projection.response = static_cast<float>(arrival->ray.response);
    projection.passed = arrival->ray.passed;
    return projection.raster.x >= 0 && projection.raster.x < static_cast<float>(width_) &&
           projection.raster.y >= 0 && projection.raster.y < static_cast<float>(height_);
}

Lens::RaySample Lens::sample_ray(const Vec2& raster, float u, float v, float nm) const {
    if (drawn_) {
        const RaySample sample = sample_drawn(raster, u, v, nm);
        if (sample.pdf_direction > 0) return sample;
    }
    const Point on_plane = position_ + frame_.n * plane_ +
                           frame_.s * (raster.x * pixel_.x - half_.x) +
                           frame_.t * (half_.y - raster.y * pixel_.y);
    RaySample sample;
    sample.ray.origin = aperture_point(u, v);
    sample.ray.direction = glm::normalize(on_plane - sample.ray.origin);
    if (!drawn_) sample.pdf_direction = pdf_direction(glm::dot(sample.ray.direction, frame_.n));
    return sample;
}

Vec2 Lens::raster_change(const Point& point, const Vec3& step) const {
    const Vec3 from_lens = frame_.to_local(point - position_);
    const Vec3 moved = frame_.to_local(step);
    const float depth = from_lens.z;
    // A raster coordinate is plane · x/z over the width of a pixel on the plane; the same for y.
    const float dx = (moved.x - from_lens.x * moved.z / depth) * plane_ / depth;
    const float dy = (moved.y - from_lens.y * moved.z / depth) * plane_ / depth;
    return Vec2(dx / pixel_.x, -dy / pixel_.y);
}

bool Lens::project(const Point& point, float u, float v, Projection& projection, float nm) const {
    if (drawn_) return project_drawn(point, u, v, nm, projection);
    projection.lens_point = aperture_point(u, v);
    const Vec3 from_lens = point - projection.lens_point;
    const float depth = glm::dot(from_lens, frame_.n);
    if (depth <= 1e-4F) return false;
    const Point on_plane = projection.lens_point + from_lens * (plane_ / depth);
    const Vec3 local = on_plane - position_;
    projection.raster = Vec2((glm::dot(local, frame_.s) + half_.x) / pixel_.x,
                             (half_.y - glm::dot(local, frame_.t)) / pixel_.y);
    if (!(projection.raster.x >= 0 && projection.raster.x < static_cast<float>(width_) &&
          projection.raster.y >= 0 && projection.raster.y < static_cast<float>(height_))) {
        return false;
    }
    projection.distance = glm::length(from_lens);
    projection.to_lens = -from_lens / projection.distance;
    projection.pdf_direction = projection.response = pdf_direction(depth / projection.distance);
    return true;
}

}  // namespace dapple
