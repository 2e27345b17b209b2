// The day sheet on A4 pages: drawings of the set from above and from the side, and its tables. A
// set of about five fixtures takes one page.
#pragma once

#include <vector>

#include "scene/day_sheet.h"
#include "sheets/page.h"

namespace dapple {

std::vector<Page> draw_day_sheet(const DaySheet& sheet);

}  // namespace dapple
