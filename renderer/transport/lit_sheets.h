// Sheet sampling: samples points on the cloths that a fixture lights.
//
// Cloth blocks the straight way to the lamp behind it, so next-event estimation finds no light
// there. Instead, a receiver samples a point y on the cloth with density ps, and then a point on
// the lamp from y. Every triangle of cloth is cut into cells. The probability of a cell is
// proportional to the light that comes straight from the fixture and is scattered by the cell
// (E89). Where the density is 0, the other techniques find the light.
#pragma once

#include <cstdint>
#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"
#include "math/distribution.h"
#include "scene/scene.h"

namespace dapple {

class LitSheets;

// What an earlier frame knew. It may be out of date, which affects only the noise.
struct LitByBefore {
    const LitSheets* sheets = nullptr;    // nullptr: nothing is known
    std::vector<bool> lamp_is_same = {};  // by fixture
};

class LitSheets {
  public:
    LitSheets() = default;
    LitSheets(const Scene& scene,
              const World& world,
              const std::vector<Emitter>& emitters,
              const LitByBefore& before = {});

    // Whether sheet sampling is used for this fixture's light.
    bool lit_by(size_t fixture) const {
        return fixture < by_fixture_.size() && by_fixture_[fixture].size() > 0;
    }
    // ps at a point, per m²; 0 if the point is not on cloth that the fixture lights.
    float density(size_t fixture, int sheet, const Vec2& barycentric) const;
    float density(size_t fixture, const SurfacePoint& at) const {
        return density(fixture, at.sheet, at.barycentric);
    }
    // Samples a point for a fixture that lights cloth, from three uniform numbers. Returns ps.
    float sample(
        size_t fixture, const World& world, float u0, float u1, float u2, SurfacePoint& at) const;

  private:
    // A small triangle: a part of a triangle whose sides are cut into n pieces.
    struct Cell {
        uint32_t triangle = 0;  // into World::sheets()
        float u = 0, v = 0;     // barycentric coordinates of the cell's first corner
        float step = 1;         // 1/n; -1/n for a cell that points the other way
    };
    struct Triangle {
        uint32_t first_cell = 0;
        int n = 1;
        float cell_area = 0;  // m²
    };

    void cut(const World& world);
    bool has_sheets_of(const LitSheets& other) const { return corners_ == other.corners_; }
    Discrete light_of(const Scene& scene, const World& world, const Emitter& emitter) const;
    static Vec2 point_in(const Cell& cell, float r, float s);
    double light_on(const Cell& cell, const World& world, const Emitter& emitter) const;

    std::vector<Point> corners_;  // of the triangles, three for each
    std::vector<Triangle> triangles_;
    std::vector<Cell> cells_;
    std::vector<Discrete> by_fixture_;  // over cells; empty: the fixture lights no cloth
};

}  // namespace dapple
