#include "render/packing/find_cautions.h"

#include <algorithm>
#include <cstdio>

#include "base/number_words.h"
#include "base/units.h"
#include "geometry/glassware/make_glass.h"
#include "geometry/make_board.h"
#include "geometry/nearest.h"

namespace dapple {

namespace {

// Our own limits: common practice, without a source.
constexpr double kOverhead = 2.0;     // m
constexpr double kDazzling = 1e5;     // cd/m²
constexpr double kFullLoad = 1.0;     // share of a circuit
constexpr double kLoadForLong = 0.8;  // share of a circuit
constexpr double kSmallLamp = 300;    // W
// The clearances are for fixtures without clearance_m, m.
constexpr double kSmallClearance = 0.5;
constexpr double kClearance = 1.0;

template <class... Values>
std::string formatted(const char* format, Values... values) {
    char text[256];
    std::snprintf(text, sizeof text, format, values...);
    return text;
}

double clearance_of(const Fixture& f) {
    if (f.clearance > 0) return f.clearance;
    return f.power_w > 0 && f.power_w <= kSmallLamp ? kSmallClearance : kClearance;
}

// What heat can damage.
struct DelicateThing {
    Mesh mesh;
    bool is_cloth = false;
    std::string clipped_to;  // the fixture that it is made for; "": none
};

struct NearThing {
    std::string name;
    bool is_cloth = false;
    double distance = 0;
};

// Less is more urgent.
enum Urgency { kFireOrOverload, kCrack, kOverheadLoad, kMaterial, kCare };

struct FoundCaution {
    Urgency urgency;
    Caution caution;
};

// The triangles of the room that are glass or cloth, one mesh for each material.
std::vector<DelicateThing> delicate_parts_of_room(const Scene& scene) {
    std::vector<DelicateThing> parts;
    for (size_t m = 0; m < scene.materials.size(); ++m) {
        const MaterialKind kind = scene.materials[m].kind;
        if (kind != MaterialKind::kSheet && kind != MaterialKind::kGlass &&
            kind != MaterialKind::kThinGlass) {
            continue;
        }
        for (const Mesh& mesh : scene.room) {
            Mesh part;
            part.name = scene.materials[m].name;
            part.positions = mesh.positions;
            for (size_t i = 0; i < mesh.triangles.size(); ++i) {
                if (mesh.materials[i] == static_cast<MaterialId>(m)) {
                    part.triangles.push_back(mesh.triangles[i]);
                }
            }
            const bool is_cloth = kind == MaterialKind::kSheet;
            if (!part.triangles.empty()) parts.push_back({std::move(part), is_cloth, ""});
        }
    }
    return parts;
}

// Glassware, cloths and the room's own glass and cloth.
std::vector<DelicateThing> delicate_things(const Scene& scene) {
    std::vector<DelicateThing> things = delicate_parts_of_room(scene);
    for (const GlassObject& glass : scene.glasses) {
        for (Mesh& mesh : make_glass(glass, scene)) {
            mesh.name = glass.name;
            things.push_back({std::move(mesh), false, ""});
        }
    }
    for (const Board& board : scene.boards) {
        if (board.kind != BoardKind::kDiffuser) continue;
        things.push_back({make_board(board), true, board.clipped_to});
    }
    return things;
}

// The things nearer than the clearance, but not what is clipped to the fixture: that is made for
// it.
std::vector<NearThing> near_things(const Fixture& f,
                                   const std::vector<DelicateThing>& things,
                                   double clearance) {
    std::vector<NearThing> near;
    for (const DelicateThing& thing : things) {
        if (thing.clipped_to == f.name) continue;
        const double distance = distance_to_mesh(f.position, thing.mesh);
        if (!(distance < clearance)) continue;
        if (!near.empty() && near.back().name == thing.mesh.name) {
            near.back().distance = std::min(near.back().distance, distance);
        } else {
            near.push_back({thing.mesh.name, thing.is_cloth, distance});
        }
    }
    return near;
}

const char* const kFire =
    "a hot lamp sets fire to cloth and paper; keep the distance that the lamp's maker states, and "
    "stay with the lamp while it is lit";
const char* const kCracks =
    "a hot lamp cracks glass, and what is in it runs out; keep the distance that the lamp's maker "
    "states";
const char* const kRated =
    "use only gel and cloth that are rated for the lamp, and keep them off the lens as its maker "
    "states";
const char* const kFall =
    "secure the fixture and everything clipped to it with safety bonds, and weight its stand; only "
    "people who are permitted to rig may do this";
const char* const kGlare = "do not stare into the lamp, and do not point it at people close to it";
const char* const kTooMuch = "more than the circuit may carry; move fixtures to other circuits";
const char* const kMuch = "little reserve for switching on and for hours of use";
const char* const kUnknown = "power_w is not given, so the sum of the circuit is too low";

void add_heat(const Fixture& f,
              const std::vector<DelicateThing>& things,
              std::vector<FoundCaution>& out) {
    if (f.source != SourceKind::kTungsten) return;
    const double clearance = clearance_of(f);
    const char* source = f.clearance > 0 ? "its clearance_m" : "our own figure";
    for (const NearThing& thing : near_things(f, things, clearance)) {
        const std::string what = formatted("\"%s\" is %.2f m away, nearer than %.2f m, %s",
                                           thing.name.c_str(),
                                           thing.distance,
                                           clearance,
                                           source);
        out.push_back({thing.is_cloth ? kFireOrOverload : kCrack,
                       {"heat", f.name, what, thing.is_cloth ? kFire : kCracks}});
    }
    for (const DelicateThing& thing : things) {
        if (thing.clipped_to != f.name) continue;
        out.push_back(
            {kMaterial, {"heat", f.name, "has \"" + thing.mesh.name + "\" clipped to it", kRated}});
    }
    if (f.gel.is_there()) {
        out.push_back({kMaterial, {"heat", f.name, "has a gel in its beam", kRated}});
    }
}

void add_overhead(const PackedFixture& f, std::vector<FoundCaution>& out) {
    if (!f.height || *f.height <= kOverhead) return;
    out.push_back({kOverheadLoad, {"overhead", f.name, formatted("%.1f m up", *f.height), kFall}});
}

void add_glare(const Fixture& f, const PackedFixture& planned, std::vector<FoundCaution>& out) {
    const double area = f.form == FixtureForm::kPanel
                            ? static_cast<double>(f.panel_size.x) * f.panel_size.y
                            : 0.25 * kPi * f.source_diameter * f.source_diameter;
    if (area > 0 && planned.peak_candela / area < kDazzling) return;
    const std::string what =
        area > 0 ? round_number(planned.peak_candela / area, 2) + " cd/m²" : "a point of light";
    out.push_back({kCare, {"glare", f.name, what, kGlare}});
}

void add_load(const CircuitLoad& circuit, double rated, std::vector<FoundCaution>& out) {
    const std::string name = circuit.name.empty() ? "mains" : "circuit " + circuit.name;
    if (circuit.without_power > 0) {
        const std::string what = formatted("%d of its fixtures", circuit.without_power);
        out.push_back({kCare, {"load", name, what, kUnknown}});
    }
    if (!circuit.share || *circuit.share <= kLoadForLong) return;
    const bool is_too_much = *circuit.share > kFullLoad;
    const std::string what =
        formatted("%.1f A of %.1f A, %.0f %%", circuit.current_a, rated, 100 * *circuit.share);
    out.push_back({is_too_much ? kFireOrOverload : kMaterial,
                   {"load", name, what, is_too_much ? kTooMuch : kMuch}});
}

}  // namespace

std::vector<Caution> find_cautions(const Scene& scene, const PackingList& list) {
    std::vector<FoundCaution> found;
    const std::vector<DelicateThing> things = delicate_things(scene);
    for (size_t i = 0; i < list.fixtures.size(); ++i) {
        add_heat(scene.fixtures[i], things, found);
        add_overhead(list.fixtures[i], found);
        add_glare(scene.fixtures[i], list.fixtures[i], found);
    }
    for (const CircuitLoad& circuit : list.circuits) {
        add_load(circuit, list.circuit_a.value_or(0), found);
    }
    for (Caution& caution : find_haze_cautions(scene)) {
        found.push_back({kMaterial, std::move(caution)});
    }
    std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) {
        return a.urgency < b.urgency;
    });
    std::vector<Caution> cautions;
    for (FoundCaution& f : found) cautions.push_back(std::move(f.caution));
    return cautions;
}

}  // namespace dapple
