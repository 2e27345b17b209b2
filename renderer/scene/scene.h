// The scene that is rendered: checked, in metres and radians, with names resolved to indices.
//
// build_scene.h builds it from a set description; later stages only read it. World frame:
// right-handed, y up.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/problems.h"
#include "math/vec.h"
#include "scene/camera.h"
#include "scene/haze.h"
#include "scene/photometry/photometry.h"
#include "spectrum/curve.h"
#include "spectrum/measured_reflectance.h"

namespace dapple {

using MaterialId = int32_t;
inline constexpr MaterialId kNoMaterial = -1;

// ---- Surfaces --------------------------------------------------------------------------------

enum class MaterialKind {
    kLambertian,
    kConductor,  // GGX, reflectance at normal incidence
    kCoated,     // smooth or rough clear coat over a Lambertian base: wet, varnished
    kSheet,      // thin scattering sheet: cloth, diffuser
    kGlass,      // the boundary of a solid or a liquid
    kThinGlass,  // a window pane modelled as one surface
};

enum class GlassType {
    kSodaLime,
    kBorosilicate,
    kLeadCrystal,
    kSilica,
    kAcrylic,
    kWater,
    kOil,
    kAir,  // a hollow in glass, with a higher priority than the glass
};
enum class Tint { kClear, kGreen, kAmber, kCobalt };

struct Material {
    std::string name;
    MaterialKind kind = MaterialKind::kLambertian;
    Rgb reflectance{0.5F};         // 0 to 1 each
    int reflectance_texture = -1;  // index into Scene::textures; multiplies the colour
    bool vertex_colours = false;   // the mesh's colours multiply the colour
    MeasuredReflectance measured = MeasuredReflectance::kNone;  // replaces the colour
    float opacity = 1;  // part of the surface that exists; the rest lets light pass
    int opacity_texture = -1;
    float roughness = 0;  // 0 to 1; the GGX width is its square
    float coat = 0;       // kCoated: share of the surface that the coat covers
    // kSheet: parts of the light that falls on it; reflectance + transmission <= 1
    float transmission = 0;  // passes, including the direct part
    float spread = 0;        // rad, half-angle at half intensity of the forward lobe
    float direct = 0;        // passes unscattered
    // kGlass, kThinGlass
    GlassType glass = GlassType::kSodaLime;
    Tint tint = Tint::kClear;
    int priority = 0;  // where solids overlap, the higher one fills the space
    // kGlass, of a face that differs from the rest: the material of the solid.
    MaterialId medium = kNoMaterial;
};

struct Texture {
    std::string name;
    int width = 0;
    int height = 0;
    int channels = 3;             // 1 or 3
    bool srgb = true;             // decoded when a point is read
    std::vector<uint8_t> texels;  // rows from the top, channels interleaved
};

// Triangles that share vertices. `normals`, `uvs` and `colours` are empty or as many as
// `positions`.
struct Mesh {
    std::string name;
    std::vector<Point> positions;
    std::vector<Normal> normals;  // empty: flat
    std::vector<Vec2> uvs;
    std::vector<Rgb> colours;  // linear Rec.709
    std::vector<glm::uvec3> triangles;
    std::vector<MaterialId> materials;  // one per triangle
};

// ---- Things that stand in the room -------------------------------------------------------------

enum class GlassForm { kMesh, kJar, kBottle, kTumbler, kPane, kBall, kDemijohn, kCarafe, kRod };

// The pattern cut into the outside of vessels and rods and into the front of panes.
enum class GlassSurface { kPlain, kRibbed, kReeded, kHammered, kWavy };

// A solid of glass. Its own frame has y up and the origin at the centre of its base. It is tilted
// about its x axis, turned about y, then moved to `position`.
struct GlassObject {
    std::string name;
    GlassForm form = GlassForm::kJar;
    int mesh = -1;  // kMesh: index into Scene::glass_meshes, in the object's own frame
    Point position{0};
    float turn = 0;          // rad
    float tilt = 0;          // rad
    float height = 0.26F;    // m
    float diameter = 0.12F;  // m, outside
    float wall = 0.003F;     // m
    float width = 0;         // m; a pane is width by height by wall, measured over the crests
    GlassSurface surface = GlassSurface::kPlain;
    float relief_depth = 0;     // m, crest to trough; 0 where plain
    float relief_pitch = 0;     // m, from one reed, dent or wave to the next
    int ribs = 0;               // kRibbed: round the outside
    float rib_twist = 0;        // rad, turn of ribs and reeds from bottom to top
    uint64_t seed = 1;          // of dents, waves and bubbles
    int bubbles = 0;            // in the glass
    float bubble_diameter = 0;  // m, of the largest
    MaterialId air = kNoMaterial;
    MaterialId material = kNoMaterial;
    MaterialId outer_face = kNoMaterial;  // of the outside, if it differs from `material`
    MaterialId inner_face = kNoMaterial;  // of a vessel's inside or a pane's back, likewise
    MaterialId liquid = kNoMaterial;      // kNoMaterial: empty
    float liquid_level = 0;               // share of the inner height
    std::string kit;                      // the kit entry that it starts from; "": none
};

enum class BoardKind { kDiffuser, kFlag, kBounce, kDoor };

// A flat sheet: rectangle or disc.
struct Board {
    std::string name;
    BoardKind kind = BoardKind::kFlag;
    Point centre{0};
    Direction facing{0, 0, 1};
    Vec2 size{1, 1};  // m; a disc has its diameter in x
    bool round = false;
    MaterialId material = kNoMaterial;
    std::optional<Point> aim;  // the point that its face looks at; none if it is clipped
    std::string clipped_to;    // the fixture that it is clipped to; "": none
    std::string cloth;         // kDiffuser: the named cloth; "": the set describes its own
    std::string kit;           // the kit entry that it starts from; "": none
};

// A pillar on `position`, the centre of its base: round, or with sides along the room's axes.
struct Column {
    std::string name;
    Point position{0};
    Vec2 size{0.3F, 0.3F};  // m, along x and along z; a round one has its diameter in x
    bool round = false;
    float height = 3;  // m
    MaterialId material = kNoMaterial;
};

enum class Pose { kStanding, kSeated, kArmRaised };

// A lay figure. Its own frame has y up, the origin on the floor between its feet, and its face
// towards +z. It is turned about y, then moved to `position`.
struct StandIn {
    std::string name;
    Pose pose = Pose::kStanding;
    Point position{0};
    float turn = 0;       // rad
    float height = 1.7F;  // m, when it stands, without hair
    MaterialId skin = kNoMaterial;
    MaterialId hair = kNoMaterial;   // kNoMaterial: none
    MaterialId dress = kNoMaterial;  // a sheet; kNoMaterial: none
};

enum class FixtureForm { kSpot, kBare, kPanel };
enum class SourceKind { kLed, kTungsten, kDaylight, kFlat };
enum class OutputKind { kLumens, kPeakCandela, kLux, kPhotometry };  // the last: from the file
enum class Supply { kMains, kBattery };

// The filters in front of a fixture's lens.
struct Gel {
    double shift_mired = 0;         // of the fixture's undimmed light; below 0 is bluer
    double stops = 0;               // grey
    std::optional<Curve> spectrum;  // transmittance from the user's file, in place of a shift

    bool is_there() const { return shift_mired != 0 || stops != 0 || spectrum.has_value(); }
};

struct Fixture {
    std::string name;
    FixtureForm form = FixtureForm::kSpot;
    SourceKind source = SourceKind::kLed;
    Point position{0};         // centre of the apparent source
    std::optional<Point> aim;  // the point that it is aimed at; a bare one may have none
    Direction axis{0, 0, -1};
    Direction up{0, 1, 0};  // before `turn`, its frame's t is as near to this as possible
    float turn = 0;         // rad, about its axis, anticlockwise seen along the axis
    float beam_angle = 0;   // rad, full angle at half intensity
    float field_angle = 0;  // rad, full angle at a tenth of the intensity
    // With a wide-angle attachment; the output is for the beam without it.
    float wide_beam_angle = 0;             // rad; 0: no attachment
    float wide_field_angle = 0;            // rad
    float wide_passes = 1;                 // share of the light that the attachment passes
    std::optional<Photometry> photometry;  // replaces the beam
    float cct_k = 5600;
    float duv = 0;
    OutputKind output = OutputKind::kLumens;
    double output_value = 0;     // lm, cd or lx, before dimmer and gel
    double output_distance = 1;  // m, for kLux
    float source_diameter = 0;   // m; 0 is a point
    Vec2 panel_size{0, 0};       // m, kPanel
    float dimmer = 1;            // linear in light
    bool dimmer_warms = true;    // kTungsten: dimmed by lower voltage, not by scrims
    Gel gel;
    float housing_diameter = 0;  // m; 0: no body
    float housing_length = 0;
    std::optional<std::array<float, 4>> barn_doors;  // rad: left right top bottom; 0 is shut
    float snoot_diameter = 0;                        // m; 0: none
    float snoot_length = 0;
    bool stand = false;
    float power_w = 0;  // 0: unknown
    Supply supply = Supply::kMains;
    std::string circuit;     // "": not given
    float clearance = 0;     // m, to things that heat harms; 0: not given
    std::string kit;         // the kit entry that it starts from; "": none
    bool is_window = false;  // light from outside through an opening; not part of the kit
    Place place;             // of its position in the set file, for messages
};

// The fixture's frame: n along its axis, s to the right as seen along the axis, t up; s and t are
// turned by `turn`.
inline Frame fixture_frame(const Fixture& f) {
    const Frame upright = looking_frame(f.axis, f.up);
    const float c = std::cos(f.turn);
    const float s = std::sin(f.turn);
    return {c * upright.s + s * upright.t, c * upright.t - s * upright.s, f.axis};
}

// ---- What is measured --------------------------------------------------------------------------

enum class ReceptorKind {
    kFlat,  // cosine: illuminance on a plane
    kDome,  // half a sphere, as on hand meters for faces
};

// A light meter. Its receptor blocks no light.
struct Meter {
    std::string name;
    ReceptorKind receptor = ReceptorKind::kFlat;
    Point position{0};  // centre of the receptor
    Direction facing{0, 1, 0};
    Point aim{0, 1, 0};  // the point that it faces
    float diameter = 0;  // m, of a disc or a dome; 0 is a point
    Vec2 size{0, 0};     // m, of a rectangle that replaces the disc; reads the mean over it
    Place place;         // of its position in the set file, for messages
};

struct Region {
    std::string name;
    MaterialId surface = kNoMaterial;  // kNoMaterial: any
    bool has_rect = false;
    glm::ivec4 rect{0};  // px: x0, y0, x1, y1; the last two not included

    std::optional<glm::ivec4> rect_px() const {
        return has_rect ? std::optional(rect) : std::nullopt;
    }
};

// The mains.
struct PowerSupply {
    double volts = 230;
    double circuit_a = 0;     // most that each circuit may carry; 0: not given
    std::vector<Vec2> mains;  // m, x and z of each socket on the floor; empty: not given
};

struct Scene {
    std::string title;
    Camera camera;
    std::vector<Material> materials;
    std::vector<Texture> textures;
    std::vector<Mesh> room;
    std::vector<Mesh> glass_meshes;
    std::vector<GlassObject> glasses;
    std::vector<Board> boards;
    std::vector<Column> columns;
    std::vector<StandIn> stand_ins;
    std::vector<Fixture> fixtures;  // then windows
    Haze haze;
    PowerSupply power;
    MaterialId housing_material = kNoMaterial;  // of every fixture's body; kNoMaterial is black
    std::vector<Meter> meters;
    std::vector<Region> regions;
};

}  // namespace dapple
