// What one pixel sees: the things of the set along its ray, on through smooth glass and in mirrors.
#pragma once

#include <vector>

#include "render/packing/find_cables.h"
#include "render/prepare/setup.h"
#include "scene/in_frame.h"
#include "transport/walk.h"

namespace dapple {

// A part of a thing, and how it is seen.
struct SeenPart {
    InFrameKind kind = InFrameKind::kFixture;
    int index = 0;  // into Scene::fixtures, glasses or boards; the list of cables for a cable
    SeenWay way = SeenWay::kDirect;

    auto operator<=>(const SeenPart&) const = default;
};

class PixelLooker {
  public:
    PixelLooker(const Setup& setup, const std::vector<CableRun>& cables);

    // The parts that are seen at a raster position, each once; without props.
    void look(const Vec2& raster, std::vector<SeenPart>& seen) const;

  private:
    void add_thing(const SurfacePoint& at, SeenWay way, std::vector<SeenPart>& seen) const;
    void add_cables(const SurfacePoint& at,
                    float half_pixel,
                    SeenWay way,
                    std::vector<SeenPart>& seen) const;
    bool passes_straight(const Vertex& vertex) const;
    bool look_on(const Vertex& vertex, Walk& walk, SeenWay& way) const;

    const Setup& setup_;
    const std::vector<CableRun>& cables_;
    std::vector<bool> props_;  // of each glass
    Wavelengths wavelengths_;
    PassMaterials materials_;
    Stage stage_;
};

}  // namespace dapple
