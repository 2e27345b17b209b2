#include "geometry/lamp_faces.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

using EightNumbers = std::array<float, 8>;

// In halves, as Spectrum::min().
float least(const EightNumbers& v) {
    std::array<float, 4> half;
    for (size_t i = 0; i < 4; ++i) half[i] = std::min(v[i], v[i + 4]);
    return std::min(std::min(half[0], half[2]), std::min(half[1], half[3]));
}

void keep_least(const EightNumbers& v, EightNumbers& least_so_far) {
    for (size_t i = 0; i < 8; ++i) least_so_far[i] = std::min(v[i], least_so_far[i]);
}

}  // namespace

void LampFaces::Vectors::put(size_t i, const Vec3& v) {
    x[i] = v.x;
    y[i] = v.y;
    z[i] = v.z;
}

void LampFaces::add_flat(uint32_t body, const Fixture& f) {
    const bool is_panel = f.form == FixtureForm::kPanel;
    const Frame frame = fixture_frame(f);
    const Vec2 half = is_panel ? 0.5F * f.panel_size : Vec2(0.5F * f.source_diameter);
    const size_t place = flat_count_++ % kWidth;
    if (place == 0) flat_.emplace_back();
    FlatFaces& faces = flat_.back();
    faces.centre.put(place, f.position);
    faces.normal.put(place, f.axis);
    faces.along_s.put(place, frame.s / half.x);
    faces.along_t.put(place, frame.t / half.y);
    faces.round[place] = is_panel ? 0.0F : 1.0F;
    faces.body[place] = body;
}

void LampFaces::add_ball(uint32_t body, const Fixture& f) {
    const size_t place = ball_count_++ % kWidth;
    if (place == 0) balls_.emplace_back();
    Balls& balls = balls_.back();
    balls.centre.put(place, f.position);
    balls.radius2[place] = square(0.5F * f.source_diameter);
    balls.body[place] = body;
}

bool LampFaces::add(uint32_t body, const Fixture& f) {
    if (f.form != FixtureForm::kPanel && f.source_diameter <= 0.0F) return false;
    if (f.form == FixtureForm::kBare) {
        add_ball(body, f);
    } else {
        add_flat(body, f);
    }
    return true;
}

inline void LampFaces::FlatFaces::distances(const Ray& ray, float t_max, Numbers& result) const {
    const Vec3 o = ray.origin;
    const Vec3 d = ray.direction;
    const float t_min = ray.t_min;
    for (size_t i = 0; i < kWidth; ++i) {
        const float x = centre.x[i] - o.x;
        const float y = centre.y[i] - o.y;
        const float z = centre.z[i] - o.z;
        // Not a number in a place that holds no face.
        const float t = (x * normal.x[i] + y * normal.y[i] + z * normal.z[i]) /
                        (d.x * normal.x[i] + d.y * normal.y[i] + d.z * normal.z[i]);
        const float met_x = t * d.x - x;
        const float met_y = t * d.y - y;
        const float met_z = t * d.z - z;
        const float a = met_x * along_s.x[i] + met_y * along_s.y[i] + met_z * along_s.z[i];
        const float b = met_x * along_t.x[i] + met_y * along_t.y[i] + met_z * along_t.z[i];
        const float larger = std::max(a * a, b * b);
        const float smaller = std::min(a * a, b * b);
        const bool met = (larger + round[i] * smaller <= 1.0F) & (t >= t_min) & (t <= t_max);
        result[i] = met ? t : kInfinity;
    }
}

inline void LampFaces::Balls::distances(const Ray& ray, float t_max, Numbers& result) const {
    const Vec3 o = ray.origin;
    const Vec3 d = ray.direction;
    const float t_min = ray.t_min;
    const float per_length2 = 1.0F / glm::dot(d, d);
    for (size_t i = 0; i < kWidth; ++i) {
        const float x = centre.x[i] - o.x;
        const float y = centre.y[i] - o.y;
        const float z = centre.z[i] - o.z;
        const float middle = per_length2 * (x * d.x + y * d.y + z * d.z);
        const float beside_x = x - middle * d.x;
        const float beside_y = y - middle * d.y;
        const float beside_z = z - middle * d.z;
        const float beside2 = beside_x * beside_x + beside_y * beside_y + beside_z * beside_z;
        // Below zero where the ray passes outside the ball.
        const float inside = per_length2 * (radius2[i] - beside2);
        const float half_chord = std::sqrt(std::max(inside, 0.0F));
        const float front = middle - half_chord;
        const float t = front >= t_min ? front : middle + half_chord;
        const bool met = (inside >= 0.0F) & (t >= t_min) & (t <= t_max);
        result[i] = met ? t : kInfinity;
    }
}

bool LampFaces::is_met(const Ray& ray, float t_max) const {
    Numbers t;
    Numbers nearest;
    nearest.fill(kInfinity);
    for (const FlatFaces& faces : flat_) {
        faces.distances(ray, t_max, t);
        keep_least(t, nearest);
    }
    for (const Balls& balls : balls_) {
        balls.distances(ray, t_max, t);
        keep_least(t, nearest);
    }
    return least(nearest) < kInfinity;
}

bool LampFaces::closest(const Ray& ray, float t_max, Hit& hit) const {
    if (!is_met(ray, t_max)) return false;
    Numbers t;
    hit.t = kInfinity;
    hit.triangle = 0;
    hit.u = hit.v = 0;
    for (const FlatFaces& faces : flat_) {
        faces.distances(ray, t_max, t);
        for (size_t i = 0; i < kWidth; ++i) {
            if (!(t[i] < hit.t)) continue;
            hit.t = t[i];
            hit.body = faces.body[i];
            hit.normal = faces.normal.at(i);
        }
    }
    for (const Balls& balls : balls_) {
        balls.distances(ray, t_max, t);
        for (size_t i = 0; i < kWidth; ++i) {
            if (!(t[i] < hit.t)) continue;
            hit.t = t[i];
            hit.body = balls.body[i];
            hit.normal = ray.origin + hit.t * ray.direction - balls.centre.at(i);
        }
    }
    return true;
}

}  // namespace dapple
