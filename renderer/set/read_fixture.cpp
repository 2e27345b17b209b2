// [[fixture]]
#include "set/set_tables.h"

namespace dapple {

namespace {

void read_output(TableReader& table, FixtureDescription& fixture) {
    table.read(fixture.output_lm, "output_lm");
    table.read(fixture.peak_cd, "peak_cd");
    table.read_table(fixture.lux, "lux", [&](TableReader& lux) {
        lux.read(fixture.lux.value, "value");
        lux.read(fixture.lux.at_m, "at_m");
    });
}

void read_gel(TableReader& table, GelDescription& gel) {
    table.read_table(gel, "gel", [&](TableReader& inner) {
        inner.read(gel.shift_mired, "shift_mired");
        inner.read(gel.stops, "stops");
        inner.read(gel.file, "file");
    });
}

}  // namespace

void read_fixture(TableReader& table, FixtureDescription& fixture) {
    table.read(fixture.name, "name");
    table.read(fixture.form, "form");
    table.read(fixture.source, "source");
    table.read(fixture.position, "position");
    table.read(fixture.aim, "aim");
    table.read(fixture.turn_deg, "turn_deg");
    table.read(fixture.beam_angle_deg, "beam_angle_deg");
    table.read(fixture.field_angle_deg, "field_angle_deg");
    table.read(fixture.cct_k, "cct_k");
    table.read(fixture.duv, "duv");
    read_output(table, fixture);
    table.read(fixture.source_mm, "source_mm");
    table.read(fixture.panel_m, "panel_m");
    table.read(fixture.dimmer, "dimmer");
    table.read(fixture.dimmer_warms, "dimmer_warms");
    read_gel(table, fixture.gel);
    table.read(fixture.photometry, "photometry");
    table.read(fixture.barn_doors_deg, "barn_doors_deg");
    table.read(fixture.power_w, "power_w");
    table.read(fixture.supply, "supply");
    table.read(fixture.housing_mm, "housing_mm");
}

}  // namespace dapple
