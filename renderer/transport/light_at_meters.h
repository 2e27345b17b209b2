// The light that one light walk sends to the meters. Its vertices are joined to points of the
// receptors, and the walk itself can fall on a receptor.
#pragma once

#include <optional>

#include "transport/light_sink.h"
#include "transport/walk.h"

namespace dapple {

// The start of a light walk on its lamp.
struct LightWalkStart {
    int fixture = 0;
    int index = 0;     // among the fixture's light walks
    LampLight lamp{};  // the point on the lamp and the direction from there
    float lumens = 0;  // the flux that the walk stands for
};

// A number that is unique among the light walks of a pass. It names the walk's random stream.
uint64_t light_walk_name(int fixture, int index);

class LightAtMeters {
  public:
    LightAtMeters(const Stage& stage, const LightWalkStart& start);

    // Only the first light walks of a fixture are joined to the meters. When only the meters are
    // read, the other light walks end at their first rough event.
    bool is_joined() const { return joined_share_ > 0; }

    // Joins a vertex on a rough surface to a point of each receptor.
    void join(Walk& walk, const Vertex& vertex, LightSink& sink);

    // Whether the walk's ray meets a receptor, if no surface is in front of the receptor.
    bool may_meet_receptor(const Walk& walk) const;
    // Adds the light that falls on receptors along the walk's last ray (E106). `before` is the walk
    // before that ray was traced; `edge_length` is the length of the edge after it, m.
    void add_fallen_light(const Walk& before, float edge_length, LightSink& sink) const;

  private:
    const Stage& stage_;
    const LightWalkStart& start_;
    // The fixture's light walks over its walks joined to meters; 0: this walk is not joined.
    float joined_share_ = 0;
    std::optional<RandomStream> random_;  // of a walk that is joined
};

}  // namespace dapple
