// What one light walk brings to the meters: its vertices are joined to their receptors, and it
// falls on receptors that are in its way.
#pragma once

#include <optional>

#include "transport/light_sink.h"
#include "transport/walk.h"

namespace dapple {

// One light walk of a pass, as meters need to know it.
struct LightWalkStart {
    int fixture = 0;
    int index = 0;     // among the fixture's light walks
    LampLight lamp{};  // the point and direction in which it left the lamp
    float lumens = 0;  // that it stands for
};

// The random stream's name of a light walk among all of a pass.
uint64_t light_walk_name(int fixture, int index);

class LightAtMeters {
  public:
    LightAtMeters(const Stage& stage, const LightWalkStart& start);

    // Only the first light walks of a fixture are joined to the meters. Without a frame, the others
    // may end where they are scattered, because they bring nothing more.
    bool is_joined() const { return joined_share_ > 0; }

    // Joins a vertex on a rough surface to a point of each receptor.
    void join(Walk& walk, const Vertex& vertex, LightSink& sink);

    // Whether a receptor would be in the way of the walk's ray if nothing were before it.
    bool may_fall(const Walk& walk) const;
    // Adds what falls on the receptors along the ray of `begun`, the walk as it was before it went
    // on to `reached` m of its edge (E62).
    void fall(const Walk& begun, float reached, LightSink& sink) const;

  private:
    const Stage& stage_;
    const LightWalkStart& start_;
    float joined_share_ = 0;  // the fixture's light walks over those joined; 0: this one is not
    std::optional<RandomStream> random_;  // of a walk that is joined
};

}  // namespace dapple
