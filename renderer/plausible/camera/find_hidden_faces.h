// A cloth, flag or board that hides a figure's face from the lens, and a pane that stands before
// it. Guesses.
//
// Told if it hides at least half of a face that is in the frame. On purpose are: what a [[region]]
// names; a board that fills more than 60 % of the frame, as a screen for shadows does; other glass
// than panes; and panes within half a metre of the lens, or that no fixture shines through: these
// are there to be looked through.
#pragma once

#include "plausible/light/seen_frame.h"

namespace dapple {

Doubts find_hidden_faces(const StagedSet& set, const SeenFrame& frame);

}  // namespace dapple
