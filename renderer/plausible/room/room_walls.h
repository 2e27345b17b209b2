// Whether a place is in the room, for rooms of size_m and for models.
//
// A model may be a room, a part of one, or a building. So a place counts as shut out only if it is
// outside the model's bounds and the model's surfaces stop all straight lines from it to 64 places
// spread through the bounds. A lamp before a window, and a camera where a wall was left out, are
// not shut out.
#pragma once

#include "plausible/staged_set.h"

namespace dapple {

class RoomWalls {
  public:
    explicit RoomWalls(const StagedSet& set);

    const Bounds& bounds() const { return bounds_; }
    bool is_within_bounds(const Point& p) const;
    bool shut_out(const Point& p) const;
    // Whether a message may say to move a thing from one place to the other: not out of the room.
    bool may_move(const Point& from, const Point& to) const;

  private:
    const StagedSet& set_;
    Bounds bounds_;  // of the room's own surfaces
    bool is_room_ = false;
};

}  // namespace dapple
