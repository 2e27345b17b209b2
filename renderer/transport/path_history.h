// The events on a walk so far, as weights and sensors need them.
//
// An event is the scattering of the walk at one vertex. At a smooth event, a mirror or smooth glass
// decides the direction; every other event is rough. Passing straight through a surface is no
// event. A *focusing* event is a smooth one or one at rough glass: it gathers light into spots that
// hardly any walk from the lens would find. Scattering by haze is a rough event.
#pragma once

namespace dapple {

class PathHistory {
  public:
    // Records the event at the vertex that the walk is leaving.
    void record_smooth() {
        began_smooth_ = began_smooth_ || !has_events_;
        any_focusing_ = ended_smooth_ = has_events_ = true;
        ended_in_haze_ = false;
    }
    // `is_shiny`, `focuses`: what kind of surface the rough event is on (materials/bsdf.h).
    void record_rough(bool is_shiny, bool focuses) {
        any_focusing_ = any_focusing_ || focuses;
        rough_after_first_ = rough_after_first_ || has_events_;
        only_shiny_ = only_shiny_ && is_shiny;
        only_smooth_ = ended_smooth_ = ended_in_haze_ = false;
        has_events_ = true;
    }

    void record_haze() {
        record_rough(false, false);
        any_haze_ = ended_in_haze_ = true;
    }

    bool has_events() const { return has_events_; }
    // No event so far was rough.
    bool only_smooth() const { return only_smooth_; }
    // No event so far was on a surface that is not shiny. Smooth events are on shiny surfaces.
    bool only_shiny() const { return only_shiny_; }
    bool any_focusing() const { return any_focusing_; }
    // The first event was smooth.
    bool began_smooth() const { return began_smooth_; }
    // The last event was smooth.
    bool ended_smooth() const { return ended_smooth_; }
    // Some event after the first one was rough.
    bool rough_after_first() const { return rough_after_first_; }
    // Some event was in haze; the last event was.
    bool any_haze() const { return any_haze_; }
    bool ended_in_haze() const { return ended_in_haze_; }

  private:
    bool has_events_ = false;
    bool only_smooth_ = true;
    bool only_shiny_ = true;
    bool any_focusing_ = false;
    bool began_smooth_ = false;
    bool ended_smooth_ = false;
    bool rough_after_first_ = false;
    bool any_haze_ = false;
    bool ended_in_haze_ = false;
};

}  // namespace dapple
