// Sheet sampling: points on the cloths that a fixture lights, drawn where its light falls.
//
// Cloth blocks the straight way to the lamp behind it, so what it lights could only be found by
// walks that meet it by chance. From a receiver a point y on cloth is drawn with density ps, and
// the lamp is asked for from there. Every triangle of cloth is cut into cells; a cell is drawn in
// proportion to the light that falls on it straight from the fixture and goes on from there (E71).
// Where the density is 0 the other techniques find what there is.
#pragma once

#include <cstdint>
#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"
#include "math/distribution.h"
#include "scene/scene.h"

namespace dapple {

class LitSheets {
  public:
    LitSheets() = default;
    LitSheets(const Scene& scene, const World& world, const std::vector<Emitter>& emitters);

    // Whether this fixture's light is worth looking for on cloth.
    bool lit_by(size_t fixture) const {
        return fixture < by_fixture_.size() && by_fixture_[fixture].size() > 0;
    }
    // ps at a point, per m²; 0 where it is not on cloth that the fixture lights.
    float density(size_t fixture, int sheet, const Vec2& barycentric) const;
    float density(size_t fixture, const SurfacePoint& at) const {
        return density(fixture, at.sheet, at.barycentric);
    }
    // Draws a point for a fixture that lights cloth, from three uniform numbers; its density.
    float sample(
        size_t fixture, const World& world, float u0, float u1, float u2, SurfacePoint& at) const;

  private:
    // A part of a triangle: 1/n of it along both sides from the second and third corner.
    struct Cell {
        uint32_t triangle = 0;  // into World::sheets()
        float u = 0, v = 0;     // its own corner
        float step = 1;         // 1/n; below 0 for a cell that points the other way
    };
    struct Triangle {
        uint32_t first_cell = 0;
        int n = 1;
        float cell_area = 0;  // m²
    };

    void cut(const World& world);
    static Vec2 point_in(const Cell& cell, float r, float s);
    double light_on(const Cell& cell, const World& world, const Emitter& emitter) const;

    std::vector<Triangle> triangles_;
    std::vector<Cell> cells_;
    std::vector<Discrete> by_fixture_;  // over cells; empty: lights none
};

}  // namespace dapple
