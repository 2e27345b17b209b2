// The way of light backwards from the lens through smooth glass and over mirrors, without chance.
//
// At each smooth surface the way goes on where light passes; at a mirror, at a coat (wet,
// varnished) or where all light is reflected, it is reflected. A second way is reflected by the
// first pane or glass that it meets. A coat or a metal that is only nearly smooth reflects it too,
// but it then ends at the next surface: what such a gloss mirrors is a blur. Rougher surfaces and
// cloth end it.
#pragma once

#include <vector>

#include "render/prepare/setup.h"
#include "scene/in_frame.h"
#include "transport/walk.h"

namespace dapple {

enum class FirstSmooth { kPasses, kReflects };

// A straight part of the way.
struct WayPart {
    Point from{0};
    Direction direction{0, 0, 1};  // away from the lens
    float length = 0;              // m, to the next surface; infinite: there is none
    float before = 0;              // m, from the lens to `from`
    Spectrum passed{1.0F};         // share of the light that comes this way, at the eight bands
    SeenWay way = SeenWay::kDirect;
    uint64_t surfaces = 0;  // what was met, in order
    float gloss = 0;        // width α of the lobe of the gloss that reflected it last; 0: none did
    MaterialId mirror = kNoMaterial;  // the first surface that reflected it
};

class SmoothWays {
  public:
    explicit SmoothWays(const Setup& setup);

    // The parts of the way of a ray from the lens, the first one included. `gloss` becomes the
    // vertex on the gloss that reflected the last part, if one did.
    void follow(const Direction& direction,
                FirstSmooth first,
                std::vector<WayPart>& parts,
                Vertex* gloss = nullptr) const;
    // What passes from a point of a lamp straight to the lens or to a point of a surface, through
    // panes and holes. Nothing passes: black.
    Spectrum passed_straight(const Point& to, const Point& lamp) const;
    // Whether the scene has anything that a way could pass or be reflected by.
    bool any_smooth() const { return any_smooth_; }

  private:
    bool go_on(const Vertex& vertex, FirstSmooth first, Walk& walk, WayPart& part) const;

    const Setup& setup_;
    PassMaterials materials_;
    Stage stage_;
    bool any_smooth_ = false;
};

}  // namespace dapple
