// A random path through the room, from a sensor or from a lamp: its state, how it finds its next
// vertex and how it leaves one.
//
// A sheet, a pane or a cut-out that the walk passes straight through is no vertex of the path: the
// same edge continues behind the surface. The walk first collects the light that the surface
// scatters to it. Then a random number decides whether the walk passes or scatters.
#pragma once

#include <optional>

#include "base/random.h"
#include "materials/glass_catalogue.h"
#include "transport/carried_light.h"
#include "transport/media.h"
#include "transport/path_history.h"
#include "transport/vertex.h"
#include "transport/weights.h"

namespace dapple {

// Surfaces that a connection, or a walk on all its edges together, may pass straight through.
inline constexpr int kMostPassed = 64;

struct Walk {
    Ray ray;
    CarriedLight light;
    PartialWeights weights;                // at the walk's present vertex
    PartialWeights weights_at_edge_start;  // of the present edge
    PathHistory history;
    MediumStack media;
    Point last_position{0};  // where the present edge began
    float edge_length = 0;   // m, of the present edge so far
    int passed = 0;          // surfaces passed straight through, on all edges
    float full_light = 1;    // the light that Russian roulette compares with
    int edge = 1;            // number of the present edge; the walk's own end point is vertex 0
    uint32_t rays = 0;
    uint32_t nonfinite = 0;
};

// Follows the walk's ray to the next surface that changes light. Media absorb light on the way, and
// boundaries between equal media are skipped. False when the walk leaves the scene or meets a black
// surface.
bool find_next_vertex(const Stage& stage, Walk& walk, Vertex& vertex);

// What scatter() did with a walk.
enum class ScatterResult {
    kEnded,     // the walk is over
    kPassed,    // it passed straight through: the same edge continues
    kScattered  // it scattered: a new edge begins
};

// Decides at random whether the walk passes straight through `vertex`. If not, draws the direction
// in which the walk leaves from three uniform numbers, and then plays Russian roulette.
ScatterResult scatter(const Stage& stage,
                      Walk& walk,
                      const Vertex& vertex,
                      Carrying carrying,
                      const Vec3& u,
                      RandomStream& random);

// Russian roulette on the walk's remaining light (E75). False if the walk ends.
bool survives_roulette(Walk& walk, Carrying carrying, RandomStream& random);

// Updates `media` for a walk that enters or leaves the solid bounded by this material.
inline void cross_boundary(const Stage& stage, MediumStack& media, MaterialId id, bool entering) {
    media.cross(stage.scene, medium_of(stage.scene, id), entering);
}

// Transmittance of the medium that fills the space, over a distance in m.
inline Spectrum medium_transmittance(const Stage& stage, const MediumStack& media, float distance) {
    const MaterialId medium = media.current();
    if (medium == kNoMaterial) return Spectrum(1.0F);
    return transmittance(stage.materials.absorption(medium), distance);
}

// Transmittance of what fills the space along a straight way: haze, if it is air.
inline Spectrum passed_by_space(const Stage& stage,
                                const MediumStack& media,
                                const Point& origin,
                                const Direction& direction,
                                float distance) {
    if (!stage.haze || media.current() != kNoMaterial) {
        return medium_transmittance(stage, media, distance);
    }
    return Spectrum(stage.haze->transmittance(origin, direction, distance));
}

// Three uniform numbers, drawn in order.
inline Vec3 next_three(RandomStream& random) {
    const float u = random.next();
    const float v = random.next();
    return {u, v, random.next()};
}

}  // namespace dapple
