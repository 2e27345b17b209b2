// [[window]], [[door]] and [[column]].
#include "set/tables/set_tables.h"

namespace dapple {

namespace {

void read_on_wall(TableReader& table, WallDescription& on_wall) {
    table.read(on_wall.wall, "wall");
    table.read(on_wall.centre_m, "centre_m");
    table.read(on_wall.size_m, "size_m");
}

}  // namespace

void read_window(TableReader& table, WindowDescription& window) {
    table.read(window.name, "name");
    table.read(window.surface, "surface");
    read_on_wall(table, window.on_wall);
    table.read(window.luminance_cd_m2, "luminance_cd_m2");
    table.read(window.illuminance_lx, "illuminance_lx");
    table.read(window.cct_k, "cct_k");
}

void read_door(TableReader& table, DoorDescription& door) {
    table.read(door.name, "name");
    read_on_wall(table, door.on_wall);
    table.read_colour(door.reflectance, "reflectance");
}

void read_column(TableReader& table, ColumnDescription& column) {
    table.read(column.name, "name");
    table.read(column.position, "position");
    table.read(column.size_m, "size_m");
    table.read(column.diameter_m, "diameter_m");
    table.read(column.height_m, "height_m");
    table.read_colour(column.reflectance, "reflectance");
    table.read(column.carry, "carry");
}

}  // namespace dapple
