// Closed boxes, the light meters in them and what these read, for figures of light in rooms.
//
// A meter that covers a face is a rectangle as large as the face, kOffWall in front of it: what
// falls on the one falls on the other, but for a strip as wide as that along the edges, some 1e-5
// of the flux in a room of metres. Receptors stand in no light's way, so all of them read at once.
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

// A room for which box_room() makes walls of these reflectances; 0 is black and ends walks at once.
Scene box_scene(const Vec3& half, const std::array<float, 6>& reflectances);
Scene box_scene(const Vec3& half, float reflectance);

// A lamp without a body: it takes no light.
Fixture point_lamp(const Point& position, double lumens);

// A spot far above that lights a level square at `centre` evenly, within 2e-5: it hangs 200 sides
// up and the edge of its beam is far outside and steep. A twelfth of its light falls on the square.
Fixture even_light(const Point& centre, float side, double lux);

Meter point_meter(const Point& position, const Direction& facing);
Meter rectangle_meter(const Point& centre, const Direction& facing, const Vec2& size);
Meter disc_meter(const Point& centre, const Direction& facing, float diameter);
std::vector<Meter> face_meters(const Vec3& half);

// What is measured: a meter's reading times a weight.
struct Weighted {
    size_t meter = 0;
    double weight = 1;
};

// The readings of a scene's meters, pass by pass.
class Readings {
  public:
    // No `passes` in the options: 64 of them.
    Readings(const Scene& scene, MeterOptions options);

    Estimate lux(size_t meter) const { return sum({{meter, 1.0}}); }
    // The error is that of the sum as one: the readings of a pass share its light walks.
    Estimate sum(const std::vector<Weighted>& parts) const;
    const MeterResult& result() const { return result_; }

  private:
    MeterResult result_;
    std::vector<std::vector<double>> lux_;  // by meter and pass
};

// x times and plus what is exactly known.
Estimate scaled(const Estimate& e, double factor, double plus = 0);

}  // namespace dapple::published
