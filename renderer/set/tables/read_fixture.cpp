// [[fixture]] and [power]
#include "set/tables/set_tables.h"

namespace dapple {

namespace {

void read_beam(TableReader& table, FixtureDescription& fixture) {
    table.read(fixture.beam_angle_deg, "beam_angle_deg");
    table.read(fixture.field_angle_deg, "field_angle_deg");
    table.read(fixture.beam_range_deg, "beam_range_deg");
    table.read(fixture.field_range_deg, "field_range_deg");
    table.read_number_or_word(fixture.focus, fixture.focus_word, "focus");
    table.read_table(fixture.wide_angle, "wide_angle", [&](TableReader& inner) {
        inner.read(fixture.wide_angle.factor, "factor");
        inner.read(fixture.wide_angle.loss_stops, "loss_stops");
    });
}

void read_output(TableReader& table, FixtureDescription& fixture) {
    table.read(fixture.output_lm, "output_lm");
    table.read(fixture.output_range_lm, "output_range_lm");
    table.read(fixture.peak_cd, "peak_cd");
    table.read_table(fixture.lux, "lux", [&](TableReader& lux) {
        lux.read(fixture.lux.value, "value");
        lux.read(fixture.lux.at_m, "at_m");
    });
}

void read_gel(TableReader& table, GelDescription& gel) {
    table.read_table_or_word(gel, gel.words, "gel", [&](TableReader& inner) {
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
    table.read_point(fixture.aim, "aim");
    table.read(fixture.turn_deg, "turn_deg");
    read_beam(table, fixture);
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
    table.read(fixture.snoot_mm, "snoot_mm");
    table.read(fixture.stand, "stand");
    table.read(fixture.power_w, "power_w");
    table.read(fixture.supply, "supply");
    table.read(fixture.circuit, "circuit");
    table.read(fixture.clearance_m, "clearance_m");
    table.read(fixture.housing_mm, "housing_mm");
}

void read_power(TableReader& table, PowerDescription& power) {
    table.read(power.volts, "volts");
    table.read(power.circuit_a, "circuit_a");
    table.read(power.mains, "mains");
}

}  // namespace dapple
