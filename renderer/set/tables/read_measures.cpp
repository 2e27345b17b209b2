// [[meter]] and [[region]].
#include "set/tables/set_tables.h"

namespace dapple {

void read_meter(TableReader& table, MeterDescription& meter) {
    table.read(meter.name, "name");
    table.read_point(meter.position, "position");
    table.read_point(meter.facing, "facing");
    table.read(meter.receptor, "receptor");
    table.read(meter.receptor_mm, "receptor_mm");
    table.read(meter.size_m, "size_m");
}

void read_region(TableReader& table, RegionDescription& region) {
    table.read(region.name, "name");
    table.read(region.surface, "surface");
    table.read(region.rect_px, "rect_px");
}

}  // namespace dapple
