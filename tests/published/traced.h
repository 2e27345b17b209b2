// Rays and walks through solids of glass, one choice after the other, by the engine's own walk:
// World, find_next_vertex and scatter.
//
// Figures are printed for round indices of refraction. So a solid is made of the catalogue's
// silica, which takes no light, and each surface that a walk meets is given the index that the
// figure is for; or no index is given and the catalogue's own counts, at the bench's wavelength.
#pragma once

#include <optional>
#include <vector>

#include "published/published.h"
#include "render/test_scenes.h"
#include "transport/walk.h"

namespace dapple::published {

// A scene and all that walks in it read.
class Bench {
  public:
    Bench(Scene scene, const Wavelengths& wavelengths);
    Bench(Scene scene, double nm);  // all eight wavelengths alike
    Bench(const Bench&) = delete;
    Bench& operator=(const Bench&) = delete;

    // A walk along a ray that begins in air.
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

inline constexpr double kAnyWavelength = 550;  // nm, where an index is given
inline constexpr float kCatalogueIndex = 0;    // instead of an index: the catalogue's

// A scene of one solid, of clear silica: a convex polygon in x and y, counted anticlockwise seen
// from +z, drawn out along z from -half to +half, m.
Scene solid_scene(const std::vector<Vec2>& polygon, float half);
Mesh drawn_out(const std::vector<Vec2>& polygon, float half, MaterialId material);
// A pane in the y-z plane with its faces at x = ± thickness/2.
Scene pane_scene(float thickness, float half = 2);
// The engine's own ball of 100 mm, round the origin.
Scene ball_scene(GlassType glass);
inline constexpr float kBallRadius = 0.05F;

enum class Choice { kReflect, kRefract };

bool find_vertex(const Bench& bench, Walk& walk, float index, Vertex& vertex);
// Sends the walk on as chosen. The chance with which a walk would have chosen so; 0: impossible.
double go_on(const Bench& bench, Walk& walk, const Vertex& vertex, Choice choice);

// A ray that is refracted into a solid and out of it.
struct Passage {
    Point entry{0};
    Point exit{0};
    glm::dvec3 inside{0};
    glm::dvec3 direction{0};   // behind the solid
    double share = 0;          // of unpolarised light that goes this way, without absorption
    double transmittance = 0;  // of the media on the way
};
std::optional<Passage> pass_through(const Bench& bench, Walk walk, float index);

// All light of a ray that meets a pane of pane_scene, both ways at every surface, down to a
// billionth.
struct PaneLight {
    double on = 0;    // leaves towards +x
    double back = 0;  // leaves towards -x
};
PaneLight split_at_pane(const Bench& bench, const Walk& walk, float index);

// Where chance chooses: one walk by a random stream, until it leaves the scene. Its last direction;
// nothing where it was ended before.
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
// At `degrees` from +x towards +y.
glm::dvec3 heading(double degrees);

}  // namespace dapple::published
