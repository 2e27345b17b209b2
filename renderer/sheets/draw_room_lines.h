// The still parts of a view: walls, openings, columns, marks along the edges, title and scale bar.
#pragma once

#include "sheets/set_view.h"

namespace dapple {

// Below everything else.
void draw_room_lines(Page& page, const DaySheet& sheet, const ViewOnPage& view);
// Title, names of the walls, metre marks and scale bar: all in the space around the view.
void draw_view_frame(Page& page, const DaySheet& sheet, const ViewOnPage& view);

// The walls of the room in the view; the whole view where there are none.
PageBox walls_on_page(const DaySheet& sheet, const ViewOnPage& view);

}  // namespace dapple
