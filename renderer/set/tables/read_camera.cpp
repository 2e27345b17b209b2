// [room] and [camera].
#include "set/tables/set_tables.h"

namespace dapple {

void read_model_units(TableReader& table, ModelUnits& units) {
    table.read(units.unit, "unit");
    table.read(units.up, "up");
}

void read_room(TableReader& table, RoomDescription& room) {
    table.read(room.model, "model");
    table.read(room.size_m, "size_m");
    read_model_units(table, room.units);
    table.read_colour(room.reflectance, "reflectance");
}

void read_camera(TableReader& table, CameraDescription& camera) {
    table.read(camera.position, "position");
    table.read_point(camera.aim, "aim");
    table.read(camera.focal_length_mm, "focal_length_mm");
    table.read(camera.sensor_mm, "sensor_mm");
    table.read(camera.frame_px, "frame_px");
    table.read(camera.f_number, "f_number");
    table.read(camera.shutter_s, "shutter_s");
    table.read(camera.iso, "iso");
    table.read_number_or_word(camera.focus_m, camera.focus_thing, "focus_m");
    table.read(camera.white_k, "white_k");
    table.read(camera.lens, "lens");
    table.read(camera.lens_table, "lens_table");
    table.read(camera.coating, "coating");
    table.read(camera.blades, "blades");
    table.read(camera.blade_turn_deg, "blade_turn_deg");
    table.read(camera.hood_mm, "hood_mm");
    table.read(camera.veiling_glare_percent, "veiling_glare_percent");
    table.read(camera.vignetting, "vignetting");
    table.read(camera.dust, "dust");
    table.read(camera.scratches, "scratches");
    table.read(camera.dust_seed, "dust_seed");
    table.read(camera.draw, "draw");
}

}  // namespace dapple
