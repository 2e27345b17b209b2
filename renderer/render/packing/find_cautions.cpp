#include "render/packing/find_cautions.h"

#include <cstdio>

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

struct NearThing {
    std::string name;
    double distance = 0;
};

// The triangles of the room that are glass or cloth, one mesh for each material.
std::vector<Mesh> delicate_parts_of_room(const Scene& scene) {
    std::vector<Mesh> parts;
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
            if (!part.triangles.empty()) parts.push_back(std::move(part));
        }
    }
    return parts;
}

// Glassware, cloths and the room's own glass and cloth.
std::vector<Mesh> delicate_things(const Scene& scene) {
    std::vector<Mesh> things = delicate_parts_of_room(scene);
    for (const GlassObject& glass : scene.glasses) {
        for (Mesh& mesh : make_glass(glass, scene)) {
            mesh.name = glass.name;
            things.push_back(std::move(mesh));
        }
    }
    for (const Board& board : scene.boards) {
        if (board.kind == BoardKind::kDiffuser) things.push_back(make_board(board));
    }
    return things;
}

std::vector<NearThing> near_things(const Fixture& f,
                                   const std::vector<Mesh>& things,
                                   double clearance) {
    std::vector<NearThing> near;
    for (const Mesh& mesh : things) {
        const double distance = distance_to_mesh(f.position, mesh);
        if (!(distance < clearance)) continue;
        if (!near.empty() && near.back().name == mesh.name) {
            near.back().distance = std::min(near.back().distance, distance);
        } else {
            near.push_back({mesh.name, distance});
        }
    }
    return near;
}

const char* const kNearHeat =
    "a hot lamp cracks glass and sets fire to cloth and paper; keep the distance that the lamp's "
    "maker states, and stay with the lamp while it is lit";
const char* const kGelHeat =
    "a hot lamp melts and burns gel; use gel that is rated for the lamp, and keep it off the lens "
    "as the maker states";
const char* const kFall =
    "secure the fixture and everything clipped to it with safety bonds, and weight its stand; only "
    "people who are permitted to rig may do this";
const char* const kGlare = "do not stare into the lamp, and do not point it at people close to it";
const char* const kTooMuch = "more than the circuit may carry; move fixtures to other circuits";
const char* const kMuch = "little reserve for switching on and for hours of use";
const char* const kUnknown = "power_w is not given, so the sum of the circuit is too low";

void add_heat(const Fixture& f, const std::vector<Mesh>& things, std::vector<Caution>& out) {
    if (f.source != SourceKind::kTungsten) return;
    const double clearance = clearance_of(f);
    const char* source = f.clearance > 0 ? "its clearance_m" : "our own figure";
    for (const NearThing& thing : near_things(f, things, clearance)) {
        out.push_back({"heat",
                       f.name,
                       formatted("\"%s\" is %.2f m away, nearer than %.2f m, %s",
                                 thing.name.c_str(),
                                 thing.distance,
                                 clearance,
                                 source),
                       kNearHeat});
    }
    if (f.gel.is_there()) out.push_back({"heat", f.name, "has a gel in its beam", kGelHeat});
}

void add_overhead(const PackedFixture& f, std::vector<Caution>& out) {
    if (!f.height || *f.height <= kOverhead) return;
    out.push_back({"overhead", f.name, formatted("%.1f m up", *f.height), kFall});
}

void add_glare(const Fixture& f, const PackedFixture& planned, std::vector<Caution>& out) {
    const double area = f.form == FixtureForm::kPanel
                            ? static_cast<double>(f.panel_size.x) * f.panel_size.y
                            : 0.25 * kPi * f.source_diameter * f.source_diameter;
    if (area > 0 && planned.peak_candela / area < kDazzling) return;
    out.push_back(
        {"glare",
         f.name,
         area > 0 ? formatted("%.0e cd/m²", planned.peak_candela / area) : "a point of light",
         kGlare});
}

void add_load(const CircuitLoad& circuit, double rated, std::vector<Caution>& out) {
    const std::string name = circuit.name.empty() ? "mains" : "circuit " + circuit.name;
    if (circuit.without_power > 0) {
        out.push_back(
            {"load", name, formatted("%d of its fixtures", circuit.without_power), kUnknown});
    }
    if (!circuit.share || *circuit.share <= kLoadForLong) return;
    out.push_back(
        {"load",
         name,
         formatted("%.1f A of %.1f A, %.0f %%", circuit.current_a, rated, 100 * *circuit.share),
         *circuit.share > kFullLoad ? kTooMuch : kMuch});
}

}  // namespace

std::vector<Caution> find_cautions(const Scene& scene, const PackingList& list) {
    std::vector<Caution> cautions;
    const std::vector<Mesh> things = delicate_things(scene);
    for (size_t i = 0; i < list.fixtures.size(); ++i) {
        add_heat(scene.fixtures[i], things, cautions);
        add_overhead(list.fixtures[i], cautions);
        add_glare(scene.fixtures[i], list.fixtures[i], cautions);
    }
    for (const CircuitLoad& circuit : list.circuits) {
        add_load(circuit, list.circuit_a.value_or(0), cautions);
    }
    return cautions;
}

}  // namespace dapple
