// What a light walk does for the meters: its vertices are joined to their receptors, and it falls
// on receptors that stand in its way.
#pragma once

#include <optional>

#include "transport/light_sink.h"
#include "transport/walk.h"

namespace dapple {

class MeteredWalk {
  public:
    MeteredWalk(const Stage& stage, int fixture, int index, const LampLight& lamp, float scale);

    // Only the first light walks of a fixture are joined to the meters. Without a frame the others
    // may end where they are scattered: they bring no more.
    bool is_joined() const { return joined_share_ > 0; }

    // Joins the vertex, not a delta one, to a point of each receptor.
    void join(Walk& walk, const Vertex& vertex, LightSink& sink);

    // Whether a receptor lies in the way of the walk's ray, if nothing is before it.
    bool may_fall(const Walk& walk) const;
    // What falls on the receptors along the ray of `begun`, the walk as it was before it went on to
    // `reached` m of its edge (E62).
    void fall(const Walk& begun, float reached, LightSink& sink) const;

  private:
    const Stage& stage_;
    int fixture_;
    LampLight lamp_;
    float scale_;
    float joined_share_ = 0;  // the fixture's light walks over those joined; 0: not one of them
    std::optional<RandomStream> random_;  // of one of them
};

// The name of a light walk among all of a pass.
uint64_t light_walk_name(int fixture, int index);

}  // namespace dapple
