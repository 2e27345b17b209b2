// Draws one view of the set: the room, the things in it, their beams, cables and labels.
#pragma once

#include "sheets/set_view.h"

namespace dapple {

void draw_set(Page& page, const DaySheet& sheet, const ViewOnPage& view);

}  // namespace dapple
