// A set file exactly as written: in its own units and words, with only the types checked.
//
// The end of a key is its unit (_mm, _deg, _k, _lm); lengths without a unit are in metres.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "set/written_field.h"

namespace dapple {

// What the numbers in an OBJ model mean.
struct ModelUnits {
    Field<std::string> unit;  // m cm mm ft in
    Field<std::string> up;    // y z
};

struct RoomDescription : TableDescription {
    Field<std::string> model;  // OBJ path
    Field<Triple> size_m;      // along x, along z, height of a plain box
    ModelUnits units;
    Field<Triple> reflectance;  // of the plain box, linear Rec.709
};

struct CameraDescription : TableDescription {
    Field<Triple> position;
    PointField aim;
    Field<double> focal_length_mm;
    Field<Pair> sensor_mm;
    Field<std::array<int64_t, 2>> frame_px;
    Field<double> f_number;
    Field<double> shutter_s;
    Field<double> iso;
    Field<double> focus_m;
    Field<std::string> focus_thing;  // a name instead of a distance
    Field<double> white_k;
    Field<std::string> lens;
    Field<std::string> lens_table;  // path
    Field<std::string> coating;
    Field<int64_t> blades;
    Field<double> blade_turn_deg;
    Field<double> hood_mm;
    Field<double> veiling_glare_percent;
    Field<bool> vignetting;
    Field<int64_t> dust;
    Field<int64_t> scratches;
    Field<int64_t> dust_seed;
    Field<std::string> draw;
};

struct LuxDescription : TableDescription {
    Field<double> value;  // lx
    Field<double> at_m;
};

struct GelDescription : TableDescription {
    Field<std::string> words;  // "1/4 CTO", instead of a table
    Field<double> shift_mired;
    Field<double> stops;
    Field<std::string> file;  // CSV path: nm, transmittance
};

struct WideAngleDescription : TableDescription {
    Field<double> factor;  // by which the beam angle is multiplied
    Field<double> loss_stops;
};

struct FixtureDescription : TableDescription {
    Field<std::string> name;
    Field<std::string> form;    // spot bare panel
    Field<std::string> source;  // led tungsten daylight flat
    Field<Triple> position;
    PointField aim;
    Field<double> turn_deg;         // about its axis
    Field<double> beam_angle_deg;   // full angle at half intensity
    Field<double> field_angle_deg;  // full angle at a tenth of the intensity
    Field<Pair> beam_range_deg;     // spot, flood
    Field<Pair> field_range_deg;
    Field<double> focus;            // 0 spot … 1 flood
    Field<std::string> focus_word;  // spot flood; instead of a number
    WideAngleDescription wide_angle;
    Field<double> cct_k;
    Field<double> duv;
    Field<double> output_lm;
    Field<Pair> output_range_lm;  // spot, flood
    Field<double> peak_cd;
    LuxDescription lux;
    Field<double> source_mm;
    Field<Pair> panel_m;       // width, height
    Field<double> dimmer;      // share of the light, 0 to 1
    Field<bool> dimmer_warms;  // tungsten
    GelDescription gel;
    Field<std::string> photometry;  // IES or EULUMDAT path
    Field<Quad> barn_doors_deg;     // left right top bottom
    Field<Pair> snoot_mm;           // diameter, length
    Field<bool> stand;
    Field<double> power_w;
    Field<std::string> supply;  // battery mains
    Field<std::string> circuit;
    Field<double> clearance_m;  // to things that heat harms
    Field<Pair> housing_mm;     // diameter, length
};

struct FillDescription : TableDescription {
    Field<std::string> liquid;  // water oil
    Field<double> level;        // share of the inner height
};

struct GlassDescription : TableDescription {
    Field<std::string> name;
    Field<std::string> form;   // jar bottle tumbler demijohn carafe ball rod pane
    Field<std::string> model;  // OBJ path of a closed mesh
    ModelUnits units;          // of the model
    Field<Triple> position;    // centre of the base
    Field<double> turn_deg;
    Field<double> tilt_deg;
    Field<double> height_mm;
    Field<double> diameter_mm;
    Field<double> width_mm;  // pane
    Field<double> wall_mm;
    Field<std::string> surface;  // plain ribbed reeded hammered seeded wavy
    Field<int64_t> ribs;
    Field<double> rib_depth_mm;
    Field<double> rib_twist_deg;  // ribbed, reeded: turn from bottom to top
    Field<double> pattern_mm;     // reeded, hammered, wavy: from crest to crest
    Field<double> pattern_depth_mm;
    Field<int64_t> bubbles;
    Field<double> bubble_mm;  // diameter of the largest
    Field<int64_t> seed;
    Field<std::string> glass;
    Field<std::string> tint;
    Field<double> roughness;
    Field<std::string> frosted;  // outside inside: the only face with the roughness
    Field<int64_t> priority;
    FillDescription fill;
};

// How a thin sheet passes light.
struct SheetDescription {
    Field<double> transmission;
    Field<double> spread_deg;
    Field<double> direct;
};

// [[diffuser]], [[flag]] or [[bounce]]
struct BoardDescription : TableDescription {
    Field<std::string> name;
    Field<Triple> position;  // centre
    PointField aim;
    Field<Pair> size_m;
    Field<double> diameter_m;
    Field<std::string> cloth;    // diffuser: a named sheet
    SheetDescription sheet;      // diffuser
    Field<std::string> clip_to;  // diffuser: the fixture that it is clipped to
    Field<double> clip_mm;       // distance from the lens
    Field<std::string> stencil;  // flag: picture, white where the flag is solid
    Field<std::string> finish;   // bounce: white silver gold
    Field<Triple> reflectance;   // diffuser, bounce
    Field<double> roughness;     // bounce
};

struct DressDescription : TableDescription {
    SheetDescription sheet;
    Field<Triple> reflectance;
};

struct StandInDescription : TableDescription {
    Field<std::string> name;
    Field<std::string> pose;  // standing seated arm_raised
    Field<Triple> position;   // between the feet
    Field<double> turn_deg;
    PointField facing;  // the point that it faces, instead of a turn
    Field<double> height_m;
    Field<Triple> skin;            // reflectance
    Field<std::string> skin_word;  // light medium dark; instead of a colour
    Field<std::string> hair;       // dark fair none
    Field<double> gloss;           // share of the skin that a clear coat covers
    DressDescription dress;
};

// A rectangle on a wall of a plain box.
struct WallDescription {
    Field<std::string> wall;  // wall_left wall_right wall_back wall_front
    Field<Pair> centre_m;     // along the wall, up
    Field<Pair> size_m;
};

struct WindowDescription : TableDescription {
    Field<std::string> name;
    Field<std::string> surface;  // MTL name
    WallDescription on_wall;     // instead of a surface
    Field<double> luminance_cd_m2;
    Field<double> illuminance_lx;  // at the pane, instead of the luminance
    Field<double> cct_k;
};

struct DoorDescription : TableDescription {
    Field<std::string> name;
    WallDescription on_wall;
    Field<Triple> reflectance;
};

struct ColumnDescription : TableDescription {
    Field<std::string> name;
    Field<Triple> position;  // centre of the base
    Field<Pair> size_m;      // along x, along z
    Field<double> diameter_m;
    Field<double> height_m;
    Field<Triple> reflectance;
    Field<bool> carry;  // it is brought, not part of the room
};

struct SurfaceDescription : TableDescription {
    Field<std::string> name;  // MTL name
    Field<Triple> reflectance;
    Field<double> roughness;
    Field<double> coat;
    Field<bool> metal;
    SheetDescription sheet;
    Field<std::string> glass;
    Field<std::string> tint;
    Field<bool> thin;
    Field<int64_t> priority;
};

struct PowerDescription : TableDescription {
    Field<double> volts;
    Field<double> circuit_a;
    Field<std::vector<Pair>> mains;  // x, z of each socket
};

struct HazeDescription : TableDescription {
    Field<double> visibility_m, height_m, forward;
};

struct HazeBoxDescription : TableDescription {
    Field<std::string> name;
    Field<Triple> position;  // centre of the base
    Field<Triple> size_m;    // along x, along z, height
    Field<double> turn_deg;
    Field<double> visibility_m;  // in the middle
};

struct MeterDescription : TableDescription {
    Field<std::string> name;
    PointField position;
    PointField facing;
    Field<std::string> receptor;
    Field<double> receptor_mm;
    Field<Pair> size_m;
};

struct RegionDescription : TableDescription {
    Field<std::string> name;
    Field<std::string> surface;  // MTL name
    Field<std::array<int64_t, 4>> rect_px;
};

struct SetDescription {
    std::string path;
    bool parsed = false;     // false: not TOML; the rest is empty
    bool lacks_kit = false;  // a table was left out, as its kit entry does not exist
    Field<std::string> title;
    Field<std::vector<Pair>> mains;  // the same as in [power]
    RoomDescription room;
    CameraDescription camera;
    PowerDescription power;
    std::vector<FixtureDescription> fixtures;
    std::vector<GlassDescription> glasses;
    std::vector<BoardDescription> diffusers;
    std::vector<BoardDescription> flags;
    std::vector<BoardDescription> bounces;
    std::vector<StandInDescription> stand_ins;
    std::vector<WindowDescription> windows;
    std::vector<DoorDescription> doors;
    std::vector<ColumnDescription> columns;
    std::vector<SurfaceDescription> surfaces;
    HazeDescription haze;
    std::vector<HazeBoxDescription> haze_boxes;
    std::vector<MeterDescription> meters;
    std::vector<RegionDescription> regions;
};

}  // namespace dapple
