// The faces of the lamps, tested for hits eight at a time.
//
// They are exact discs, spheres and rectangles. The ray tracing kernels would keep each of these
// shapes in a tree of its own and search it for every ray, which took 10 to 45 % of their time.
// A flat face has two axes in its plane, in units of half its size: a point at (a, b) is inside if
// max(a², b²) + round min(a², b²) <= 1, where `round` is 1 for a disc and 0 for a rectangle.
#pragma once

#include <array>
#include <vector>

#include "geometry/surface_point.h"

namespace dapple {

class LampFaces {
  public:
    // Adds the lamp's face as body number `body`. False: the lamp is a point, which no ray meets.
    bool add(uint32_t body, const Fixture& fixture);

    // The first face that the ray meets between its t_min and `t_max`.
    bool closest(const Ray& ray, float t_max, Hit& hit) const;
    bool blocked(const Ray& ray) const { return is_met(ray, ray.t_max); }

  private:
    static constexpr size_t kWidth = 8;
    // One number for each of eight faces. Loops over them become single instructions.
    using Numbers = std::array<float, kWidth>;
    struct Vectors {
        Numbers x{}, y{}, z{};

        Vec3 at(size_t i) const { return Vec3(x[i], y[i], z[i]); }
        void put(size_t i, const Vec3& v);
    };
    // A place that holds no face has a normal of zero.
    struct FlatFaces {
        Vectors centre, normal, along_s, along_t;
        Numbers round{};
        std::array<uint32_t, kWidth> body{};

        // Infinite where the ray does not meet the face between its t_min and `t_max`.
        inline void distances(const Ray& ray, float t_max, Numbers& result) const;
    };
    // A place that holds no ball has a radius below zero.
    struct Balls {
        Vectors centre;
        Numbers radius2;
        std::array<uint32_t, kWidth> body{};

        Balls() { radius2.fill(-1); }
        inline void distances(const Ray& ray, float t_max, Numbers& result) const;
    };

    void add_flat(uint32_t body, const Fixture& fixture);
    void add_ball(uint32_t body, const Fixture& fixture);
    // Whether the ray meets any face before `t_max`.
    bool is_met(const Ray& ray, float t_max) const;

    std::vector<FlatFaces> flat_;
    std::vector<Balls> balls_;
    size_t flat_count_ = 0;
    size_t ball_count_ = 0;
};

}  // namespace dapple
