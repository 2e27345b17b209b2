// [haze] and [[haze_box]].
#include "set/tables/set_tables.h"

namespace dapple {

void read_haze(TableReader& table, HazeDescription& haze) {
    table.read(haze.visibility_m, "visibility_m");
    table.read(haze.height_m, "height_m");
    table.read(haze.forward, "forward");
}

void read_haze_box(TableReader& table, HazeBoxDescription& box) {
    table.read(box.name, "name");
    table.read(box.position, "position");
    table.read(box.size_m, "size_m");
    table.read(box.turn_deg, "turn_deg");
    table.read(box.visibility_m, "visibility_m");
}

}  // namespace dapple
