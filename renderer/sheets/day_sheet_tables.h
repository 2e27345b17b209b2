// The tables of the day sheet.
#pragma once

#include "scene/day_sheet.h"
#include "sheets/table_block.h"

namespace dapple {

TableBlock places_table(const DaySheet& sheet);
// One table for every few meters.
std::vector<TableBlock> targets_tables(const DaySheet& sheet);
TableBlock carry_table(const DaySheet& sheet);
TableBlock circuits_table(const DaySheet& sheet);
TableBlock order_table(const DaySheet& sheet);
TableBlock cautions_table(const DaySheet& sheet);

// The last line of every page.
inline constexpr const char* kSheetNote =
    "General words, no safety calculation: the makers' instructions, local codes and licensed "
    "practice come first.";

}  // namespace dapple
