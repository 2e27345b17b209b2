// Rays and walks through solids of glass, one choice after the other, traced with the engine's
// World, find_next_vertex and scatter.
//
// Figures are printed for round indices of refraction. So a solid is made of the catalogue's
// silica, which absorbs nothing, and each surface that a walk meets is given the index of the
// figure. Without an index the catalogue's own is used, at the bench's wavelength.
#pragma once

#include <optional>
#include <vector>

#include "published/published.h"
#include "render/test_scenes.h"
#include "transport/walk.h"

namespace dapple::published {

// A scene with all data that walks in it need.
class Bench {
  public:
    Bench(Scene scene, const Wavelengths& wavelengths);
    Bench(Scene scene, double nm);  // all eight wavelengths are `nm`
    Bench(const Bench&) = delete;
    Bench& operator=(const Bench&) = delete;

    // A walk along a ray that starts in air.
    static Walk walk(const Point& origin, const glm::dvec3& direction);
    const Stage& stage() const { return stage_; }

  private:
    Scene scene_;
    World world_;
    Lens lens_;
    std::vector<Emitter> emitters_;
    SceneMaterials scene_materials_;
    PassMaterials materials_;
    Stage stage_;
};

Wavelengths all_at(double nm);

inline constexpr double kAnyWavelength = 550;  // nm, used where an index is given
inline constexpr float kCatalogueIndex = 0;    // in place of an index: use the catalogue's

// A scene of one solid of clear silica: a convex polygon in x and y, anticlockwise seen from +z,
// extruded along z from -half to +half, m.
Scene solid_scene(const std::vector<Vec2>& polygon, float half);
Mesh drawn_out(const std::vector<Vec2>& polygon, float half, MaterialId material);
// A pane in the y-z plane with its faces at x = ± thickness/2.
Scene pane_scene(float thickness, float half = 2);
// The engine's own ball of 100 mm diameter around the origin.
Scene ball_scene(GlassType glass);
inline constexpr float kBallRadius = 0.05F;

enum class Choice { kReflect, kRefract };

bool find_vertex(const Bench& bench, Walk& walk, float index, Vertex& vertex);
// Continues the walk as chosen. Returns the chance of that choice; 0 if it is impossible.
double go_on(const Bench& bench, Walk& walk, const Vertex& vertex, Choice choice);

// A ray that is refracted into a solid and out of it.
struct Passage {
    Point entry{0};
    Point exit{0};
    glm::dvec3 inside{0};
    glm::dvec3 direction{0};   // behind the solid
    double share = 0;          // of unpolarised light that takes this way, without absorption
    double transmittance = 0;  // of the media on the way
};
std::optional<Passage> pass_through(const Bench& bench, Walk walk, float index);

// All light of a ray that meets a pane of pane_scene. Both ways are followed at every surface,
// until their share is below a billionth.
struct PaneLight {
    double on = 0;    // leaves towards +x
    double back = 0;  // leaves towards -x
};
PaneLight split_at_pane(const Bench& bench, const Walk& walk, float index);

// Follows one walk with random choices until it leaves the scene. Returns its last direction, or
// nothing if it ended before.
std::optional<Direction> let_go(const Bench& bench, Walk& walk, float index, RandomStream& random);

// A mean over walks, most of which may add nothing.
class Tally {
  public:
    void add(double value);
    Estimate mean_of(int64_t walks) const;

  private:
    double sum_ = 0;
    double squares_ = 0;
};

double degrees_between(const glm::dvec3& a, const glm::dvec3& b);
// The direction at `degrees` from +x towards +y.
glm::dvec3 heading(double degrees);

}  // namespace dapple::published
