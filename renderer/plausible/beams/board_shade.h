// How much of a fixture's light a flag or a board keeps from something, where it is and elsewhere.
#pragma once

#include <string>
#include <vector>

#include "fixtures/emitter.h"
#include "plausible/staged_set.h"

namespace dapple {

// A straight way of light from a point on a lamp.
struct LightWay {
    Point from{0};
    Point to{0};
    double light = 0;  // share of the illuminance that all ways bring, in any unit
};

// The ways from the fixture to the points which nothing but the board and `target` stops.
std::vector<LightWay> ways_past_board(const StagedSet& set,
                                      const Emitter& emitter,
                                      int fixture,
                                      const std::vector<Point>& points,
                                      int board,
                                      const Thing& target);

// The share of the ways' light that the board stops if it is moved by `by`. A board with an aim
// turns towards it.
double share_stopped(const Board& board, const Vec3& by, const std::vector<LightWay>& ways);

// "12 cm to camera left it leaves the face free: position = [1.2, 2, 0.3]"; "move it out of the
// beam" where no place is found.
std::string freeing_move_text(const StagedSet& set,
                              int board,
                              const std::vector<LightWay>& ways,
                              const std::string& frees);

// Whether the board stops light and may be moved: a flag or a bounce.
bool is_movable_stop(const Scene& scene, const Thing& thing);

}  // namespace dapple
