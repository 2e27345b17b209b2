// [[diffuser]], [[flag]], [[bounce]] and [[stand_in]].
#include "set/tables/set_tables.h"

namespace dapple {

namespace {

void read_placement(TableReader& table, BoardDescription& board) {
    table.read(board.name, "name");
    table.read(board.position, "position");
    table.read_point(board.aim, "aim");
    table.read(board.size_m, "size_m");
    table.read(board.diameter_m, "diameter_m");
}

}  // namespace

void read_diffuser(TableReader& table, BoardDescription& board) {
    read_placement(table, board);
    table.read(board.clip_to, "clip_to");
    table.read(board.clip_mm, "clip_mm");
    table.read(board.cloth, "cloth");
    read_sheet(table, board.sheet);
    table.read_colour(board.reflectance, "reflectance");
}

void read_flag(TableReader& table, BoardDescription& board) {
    read_placement(table, board);
    table.read(board.stencil, "stencil");
}

void read_bounce(TableReader& table, BoardDescription& board) {
    read_placement(table, board);
    table.read(board.finish, "finish");
    table.read_colour(board.reflectance, "reflectance");
    table.read(board.roughness, "roughness");
}

void read_stand_in(TableReader& table, StandInDescription& stand_in) {
    table.read(stand_in.name, "name");
    table.read(stand_in.pose, "pose");
    table.read(stand_in.position, "position");
    table.read(stand_in.turn_deg, "turn_deg");
    table.read_point(stand_in.facing, "facing");
    table.read(stand_in.height_m, "height_m");
    table.read_colour_or_word(stand_in.skin, stand_in.skin_word, "skin");
    table.read(stand_in.hair, "hair");
    table.read(stand_in.gloss, "gloss");
    table.read_table(stand_in.dress, "dress", [&](TableReader& dress) {
        read_sheet(dress, stand_in.dress.sheet);
        dress.read_colour(stand_in.dress.reflectance, "reflectance");
    });
}

}  // namespace dapple
