// [[glass]] and [[surface]].
#include "set/tables/set_tables.h"

namespace dapple {

void read_sheet(TableReader& table, SheetDescription& sheet) {
    table.read(sheet.transmission, "transmission");
    table.read(sheet.spread_deg, "spread_deg");
    table.read(sheet.direct, "direct");
}

void read_glass(TableReader& table, GlassDescription& glass) {
    table.read(glass.name, "name");
    table.read(glass.form, "form");
    table.read(glass.model, "model");
    read_model_units(table, glass.units);
    table.read(glass.position, "position");
    table.read(glass.turn_deg, "turn_deg");
    table.read(glass.tilt_deg, "tilt_deg");
    table.read(glass.height_mm, "height_mm");
    table.read(glass.diameter_mm, "diameter_mm");
    table.read(glass.width_mm, "width_mm");
    table.read(glass.wall_mm, "wall_mm");
    table.read(glass.surface, "surface");
    table.read(glass.ribs, "ribs");
    table.read(glass.rib_depth_mm, "rib_depth_mm");
    table.read(glass.rib_twist_deg, "rib_twist_deg");
    table.read(glass.pattern_mm, "pattern_mm");
    table.read(glass.pattern_depth_mm, "pattern_depth_mm");
    table.read(glass.bubbles, "bubbles");
    table.read(glass.bubble_mm, "bubble_mm");
    table.read(glass.seed, "seed");
    table.read(glass.glass, "glass");
    table.read(glass.tint, "tint");
    table.read(glass.roughness, "roughness");
    table.read(glass.frosted, "frosted");
    table.read(glass.priority, "priority");
    table.read_table(glass.fill, "fill", [&](TableReader& fill) {
        fill.read(glass.fill.liquid, "liquid");
        fill.read(glass.fill.level, "level");
    });
}

void read_surface(TableReader& table, SurfaceDescription& surface) {
    table.read(surface.name, "name");
    table.read_colour(surface.reflectance, "reflectance");
    table.read(surface.roughness, "roughness");
    table.read(surface.coat, "coat");
    table.read(surface.metal, "metal");
    read_sheet(table, surface.sheet);
    table.read(surface.glass, "glass");
    table.read(surface.tint, "tint");
    table.read(surface.thin, "thin");
    table.read(surface.priority, "priority");
}

}  // namespace dapple
