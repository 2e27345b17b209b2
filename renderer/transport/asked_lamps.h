// Which lamps and which lit cloths a vertex of a sensor walk asks for light (E88, E89).
//
// Asking costs a ray or more, so a vertex asks only some of the lamps. Lamp f is asked with the
// probability n_f, and its answer is divided by n_f. The probabilities belong to the part of the
// room's surfaces in which the vertex lies (surface_cells.h), so every technique knows them and
// they are part of the weights. They are proportional to the light that pilot walks found there,
// at most 1 and never 0. The vertex that the lens sees first asks more lamps than later ones do.
//
// One uniform number decides for all lamps of a vertex: systematic sampling (Madow 1949, "On the
// theory of systematic sampling, II").                                                      (E94)
#pragma once

#include <span>
#include <vector>

#include "transport/surface_cells.h"

namespace dapple {

// The probabilities at one vertex, by fixture.
struct Asked {
    const float* lamps = nullptr;   // nullptr: every lamp is asked
    const float* sheets = nullptr;  // the cloth that the fixture lights; nullptr: always asked

    float lamp(size_t fixture) const { return lamps ? lamps[fixture] : 1.0F; }
    float sheet(size_t fixture) const { return sheets ? sheets[fixture] : 1.0F; }
};

// Chooses among candidates that are offered one after the other.
class SystematicChoice {
  public:
    // `u`: one uniform number for all candidates.
    explicit SystematicChoice(float u) : sum_(u) {}

    // True with this probability.
    bool takes(float probability) {
        const float before = sum_;
        sum_ += probability;
        return static_cast<int>(sum_) != static_cast<int>(before);
    }

  private:
    float sum_;
};

// What a vertex would receive from each fixture, as a pilot walk found it. Any unit.
struct AskedLight {
    std::vector<float> lamps;   // by fixture
    std::vector<float> sheets;  // by way of the cloth that the fixture lights
};

// Sets probabilities proportional to `light`, at most 1, whose sum is `most` where enough of them
// have light. None is below a small floor, because the pilot can have missed light.
void set_ask_probabilities(std::span<const float> light, float most, std::span<float> probability);

class AskedLamps {
  public:
    AskedLamps() = default;
    AskedLamps(SurfaceCells cells, int fixtures);

    // Sets the probabilities of one part of the surfaces.
    void set(int part, const AskedLight& light);

    // Every vertex asks this fixture and the cloth that it lights.
    void ask_always(size_t fixture);

    // `seen_first`: the lens sees the vertex first.
    Asked at(const Point& p, const Normal& n, bool seen_first) const {
        const int part = cells_.find(p, n);
        if (part < 0) return {};
        const float* const row = row_of(part) + (seen_first ? 0 : 2 * fixtures_);
        return {row, row + fixtures_};
    }

  private:
    // A row: lamps and sheets for the vertex seen first, then both for later vertices.
    const float* row_of(int part) const {
        return &rows_[static_cast<size_t>(part) * 4 * static_cast<size_t>(fixtures_)];
    }

    SurfaceCells cells_;
    int fixtures_ = 0;
    std::vector<float> rows_;
};

}  // namespace dapple
