// Which stored vertices of light walks a camera walk is connected to (E95).
//
// A camera walk's first rough vertex z is connected to one stored vertex y of the pass's light
// walks: first a cell L is drawn with the probability P(L|K) that belongs to the cell K of z, then
// one of the vertices stored in L. Cells are parts of the room's surfaces (surface_cells.h). P is
// set from pilot walks, in proportion to the light that comes from L to K, so that connections go
// where the light is.
//
// Vertices are stored with a probability proportional to their flux, so that the stored ones of a
// cell have about equal flux. So the density of the technique, how many connections of z go to one
// light walk vertex of fixture f in L, is
//   κ = P(L|K) φ_f / Φ(L)
// φ_f is the mean flux of a vertex of the fixture, and Φ(L) the flux of all vertices in L, both as
// the pilot found them. They are fixed, so that all techniques compute the same κ; they affect
// only the noise. Cells without pilot walks are not connected; there κ = 0.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "transport/surface_cells.h"

namespace dapple {

class ConnectionTable {
  public:
    ConnectionTable() = default;
    // What a pilot knows of the light cells in a usual pass.
    struct LightCells {
        SurfaceCells cells;
        std::vector<double> expected;      // vertices, by cell
        std::vector<double> flux;          // of all of them, lm, above 0
        std::vector<double> fixture_flux;  // mean of a vertex, lm, by fixture
    };
    // `kept`: how many of all vertices a pass may store.
    ConnectionTable(SurfaceCells receivers, const LightCells& lights, double kept);

    int light_cells() const { return lights_.size(); }
    int receiver_cells() const { return receivers_.size(); }
    // -1: the point is in no cell, and nothing is connected there.
    int light_cell(const Point& p, const Normal& n) const { return lights_.find(p, n); }
    int receiver_cell(const Point& p, const Normal& n) const { return receivers_.find(p, n); }

    // Sets P(L|K) for one K, in proportion to `light`; one of them is above 0.
    void set(int receiver_cell, std::span<const double> light);

    // For passes in which a light walk carries `factor` times the flux.
    void scale_flux(double factor);

    // P/Φ, 1/lm; 0 if one of the cells is -1.
    float density(int receiver_cell, int light_cell) const {
        if (receiver_cell < 0 || light_cell < 0) return 0;
        return probability(receiver_cell, light_cell) / flux_[static_cast<size_t>(light_cell)];
    }
    // φ in a usual pass, lm.
    float stored_flux(size_t fixture) const { return fixture_flux_[fixture]; }
    // P(L|K).
    float probability(int receiver_cell, int light_cell) const {
        const float* const c = row(receiver_cell) + light_cell;
        return light_cell == 0 ? c[0] : c[0] - c[-1];
    }
    // Draws L. `within` becomes a new uniform number.
    int sample(int receiver_cell, float u, float& within) const;

    // The probability with which a vertex is stored. It is proportional to the vertex's flux
    // (lm, the mean over the wavelengths in a usual pass), so that stored vertices of a cell have
    // equal flux as far as possible. As Russian roulette, it is not part of the weights.
    float kept_share(int light_cell, float flux) const {
        return std::min(1.0F, flux * kept_[static_cast<size_t>(light_cell)]);
    }

  private:
    const float* row(int receiver_cell) const {
        return &cumulative_[static_cast<size_t>(receiver_cell) * flux_.size()];
    }

    SurfaceCells receivers_;
    SurfaceCells lights_;
    std::vector<float> flux_;          // Φ, by light cell, lm
    std::vector<float> fixture_flux_;  // φ, lm
    std::vector<float> kept_;          // by light cell, 1/lm
    std::vector<float> cumulative_;    // [K][L], the last of each row is 1
};

}  // namespace dapple
