// Closed boxes with light meters and their readings, for figures of light in rooms.
//
// A meter that covers a face is a rectangle as large as the face, kOffWall in front of it. It
// receives the light of the face, except in a strip of that width along the edges: some 1e-5 of the
// flux in a room of metres. Receptors block no light, so all of them are read at once.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "published/published.h"
#include "render/read_meters.h"
#include "scene/scene.h"

namespace dapple::published {

inline constexpr float kOffWall = 2e-5F;  // m

// One inner face of a box from -half to +half, in the order of box_room().
struct Face {
    std::string name;
    Point centre{0};
    Direction inward{0, 1, 0};
    Vec2 size{0};
    double area() const { return static_cast<double>(size.x) * size.y; }
};
std::array<Face, 6> faces_of_box(const Vec3& half);

// A room of box_room() with walls of these reflectances; 0 is black and ends walks at once.
Scene box_scene(const Vec3& half, const std::array<float, 6>& reflectances);
Scene box_scene(const Vec3& half, float reflectance);

// A lamp without a body: it absorbs no light.
Fixture point_lamp(const Point& position, double lumens);

// A spot that lights a level square at `centre` evenly, within 2e-5: it is 200 sides above the
// square, and the edge of its beam is steep and far outside. A twelfth of its light reaches the
// square.
Fixture even_light(const Point& centre, float side, double lux);

Meter point_meter(const Point& position, const Direction& facing);
Meter rectangle_meter(const Point& centre, const Direction& facing, const Vec2& size);
Meter disc_meter(const Point& centre, const Direction& facing, float diameter);
std::vector<Meter> face_meters(const Vec3& half);

// A meter's reading times a weight.
struct Weighted {
    size_t meter = 0;
    double weight = 1;
};

// The readings of a scene's meters, pass by pass.
class Readings {
  public:
    // If the options have no `passes`, 64 are made.
    Readings(const Scene& scene, MeterOptions options);

    Estimate lux(size_t meter) const { return sum({{meter, 1.0}}); }
    // The error is that of the sum in each pass, because the readings of a pass share its light
    // walks.
    Estimate sum(const std::vector<Weighted>& parts) const;
    const MeterResult& result() const { return result_; }

  private:
    MeterResult result_;
    std::vector<std::vector<double>> lux_;  // by meter and pass
};

// factor * e + plus, both exactly known.
Estimate scaled(const Estimate& e, double factor, double plus = 0);

}  // namespace dapple::published
