#include "published/ball_rays.h"

#include <cmath>
#include <stdexcept>

namespace dapple::published {

namespace {

double refract_at(const glm::dvec3& normal, float index, glm::dvec3& direction) {
    const Frame frame{Direction(normal)};
    BsdfSample s;
    const Direction wo = frame.to_local(-Direction(direction));
    const Vec3 u(0, 0, 0.99999994F);
    if (!sample(SmoothGlass{Spectrum(index)}, wo, u, Carrying::kFlux, s) || !s.transmitted) {
        throw std::logic_error("a ray that entered a sphere must leave it");
    }
    direction = glm::normalize(glm::dvec3(frame.to_world(s.wi)));
    return s.pdf;
}

}  // namespace

SphereRay through_sphere(double h, float index) {
    SphereRay ray{{-std::sqrt(1 - h * h), h, 0}, {1, 0, 0}};
    const double entering = refract_at(ray.position, index, ray.direction);
    ray.first = 1 - entering;
    ray.position -= 2 * glm::dot(ray.position, ray.direction) * ray.direction;
    ray.share = entering * refract_at(ray.position, index, ray.direction);
    return ray;
}

BallAim aim_at_ball(RandomStream& random) {
    const auto number = [&] { return 2.0 * static_cast<double>(random.next()) - 1; };
    const auto vector = [&] { return glm::dvec3{number(), number(), number()}; };
    const glm::dvec3 along = glm::normalize(vector());
    return {along, glm::normalize(glm::cross(along, vector()))};
}

Walk towards_ball(const BallAim& aim, double h) {
    const double r = kBallRadius;
    return Bench::walk(Point(-2 * r * aim.along + h * r * aim.aside), aim.along);
}

}  // namespace dapple::published
