// A random walk through the room, from the lens or from a lamp: its state, how it finds its next
// vertex and how it leaves one.
//
// Passing straight through a sheet, a pane or a cut-out is no vertex of the path: the same edge
// goes on behind it. Only once the surface has been asked for its own light is it drawn whether the
// walk passes or scatters.
#pragma once

#include "base/random.h"
#include "transport/media.h"
#include "transport/stage.h"
#include "transport/weights.h"

namespace dapple {

struct Walk {
    Ray ray;
    Spectrum throughput{1.0F};
    // What the walk would carry if no wavelength had been dropped at dispersive glass: the others
    // take nearly the same way. From the next rough event on it is the throughput again.
    Spectrum undispersed{1.0F};
    PartialWeights weights;   // at the vertex where the walk stands
    PartialWeights departed;  // as they were when the present edge began
    MediumStack media;
    Point last_position{0};   // where the present edge began
    float edge_length = 0;    // m, of the present edge so far
    int passed = 0;           // surfaces passed straight through, on all edges
    float per_join = 1;       // of the present edge (weights.h)
    float sheet_density = 0;  // of a light walk: ps of its first vertex (lit_sheets.h)
    int edge = 1;             // number of the present edge; the walk's own end point is vertex 0
    int hero = 0;             // index of the wavelength that chooses directions at dispersive glass
    bool monochromatic = false;      // only the hero is left
    bool only_smooth = true;         // so far it met nothing but smooth glass and mirrors
    bool only_shiny = true;          // and so far its vertices were shiny
    bool rough_after_first = false;  // from its second vertex on, some event was not one of these
    bool after_delta = false;        // the last event was one of these
    bool had_smooth = false;         // and so was any
    bool began_smooth = false;       // and so was the first
    // Of a camera walk: how much light walks count that are joined to the lens where it saw its
    // first surface and were scattered on their way there (soft_splat.h).
    float soft_weight = 1;
    // Of a sensor walk: where on cloth the present edge began, and the sum `join` there.
    struct LastSheet {
        int sheet = -1;
        Vec2 barycentric{0};
        float join = 0;
    } last_sheet;
    uint32_t rays = 0;
    uint32_t nonfinite = 0;
};

struct Vertex {
    SurfacePoint at;
    bool shading_faces_away = false;  // from wo; at.shading is then the geometric normal
    Normal facing_away{0, 0, 1};      // and this is the one that the mesh gives
    Direction wo_world{0};            // back to where the walk came from
    Frame frame;                      // around the shading normal; smooth glass needs none
    Direction wo{0};                  // in it
    float cos_geometric = 0;          // |wo · geometric normal|
    Bsdf bsdf;
    bool is_lamp() const { return at.lamp >= 0; }
    // As the mesh gives it.
    const Normal& interpolated() const { return shading_faces_away ? facing_away : at.shading; }
};

// Makes the frame of a vertex on smooth glass too, for whoever needs it.
void make_frame(Vertex& vertex);

// Follows the walk's ray to the next surface that does anything to light, through media and false
// boundaries. False when it leaves the scene or ends on something black.
bool find_next_vertex(const Stage& stage, Walk& walk, Vertex& vertex);

// A surface point as a vertex that a ray of this direction met, in air. False where it was met
// edge-on or is black.
bool see_vertex(const Stage& stage,
                const Direction& direction,
                const SurfacePoint& at,
                int hero,
                Vertex& vertex);

// Whether photons are kept and gathered here at all: not on glass.
bool may_merge(const Stage& stage, const Vertex& vertex);

// Draws whether the walk passes straight through `vertex` and, if not, the direction in which it
// leaves, from three uniform numbers; plays roulette. False when the walk ends.
bool scatter(const Stage& stage,
             Walk& walk,
             const Vertex& vertex,
             Carrying carrying,
             const Vec3& u,
             RandomStream& random);

// A straight edge from a vertex towards a point of a lamp or of the lens.
struct Connection {
    Spectrum transmittance;  // of media and see-through surfaces on the way; black if blocked
    float probability = 1;   // with which a walk over the same edge would have passed straight
};

// Whether the vertex can be joined at all from the side that `direction` lies on: both normals
// must agree on the side, or light would leak through the surface.
bool sides_agree(const Vertex& vertex, const Direction& direction_world, float local_z);

bool connect(const Stage& stage,
             Walk& walk,
             const Vertex& vertex,
             const Point& target,
             const Direction& direction,
             float distance,
             Connection& connection);

}  // namespace dapple
