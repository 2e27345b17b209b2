// Reads the tables of a set file, with one function for each. The function names all keys that its
// table may have; TableReader reports all others.
#pragma once

#include "set/set_description.h"
#include "set/tables/table_reader.h"

namespace dapple {

void read_room(TableReader& table, RoomDescription& room);
void read_camera(TableReader& table, CameraDescription& camera);
void read_power(TableReader& table, PowerDescription& power);
void read_fixture(TableReader& table, FixtureDescription& fixture);
void read_glass(TableReader& table, GlassDescription& glass);
void read_diffuser(TableReader& table, BoardDescription& board);
void read_flag(TableReader& table, BoardDescription& board);
void read_bounce(TableReader& table, BoardDescription& board);
void read_stand_in(TableReader& table, StandInDescription& stand_in);
void read_window(TableReader& table, WindowDescription& window);
void read_door(TableReader& table, DoorDescription& door);
void read_column(TableReader& table, ColumnDescription& column);
void read_surface(TableReader& table, SurfaceDescription& surface);
void read_meter(TableReader& table, MeterDescription& meter);
void read_haze(TableReader& table, HazeDescription& haze);
void read_haze_box(TableReader& table, HazeBoxDescription& box);
void read_region(TableReader& table, RegionDescription& region);

// Keys that several tables share.
void read_model_units(TableReader& table, ModelUnits& units);
void read_sheet(TableReader& table, SheetDescription& sheet);

}  // namespace dapple
