// Which stored vertices of light walks a camera walk is connected to (E107).
//
// A camera walk's first rough vertex z is connected to one stored vertex y of the pass's light
// walks: first a cell L is drawn with the probability P(L|K) that belongs to the cell K of z, then
// one of the vertices stored in L. Cells are parts of the room's surfaces (surface_cells.h). P is
// set from pilot walks, in proportion to the light that comes from L to K, so that connections go
// where the light is.
//
//   κ(z, y) = P(L|K) / V̄(L)
// is the density of the technique: how many connections of z go to one vertex stored in L. V̄(L) is
// the number of light walk vertices that the pilot expects in L in one pass. It is fixed, so that
// all techniques compute the same κ. Cells without pilot walks are not connected; there κ = 0.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "transport/surface_cells.h"

namespace dapple {

class ConnectionTable {
  public:
    ConnectionTable() = default;
    // `expected`: vertices in each light cell in a usual pass. `flux`: the flux of all of them, lm.
    // `kept`: how many of all of them a pass may store.
    ConnectionTable(SurfaceCells receivers,
                    SurfaceCells lights,
                    std::span<const double> expected,
                    std::span<const double> flux,
                    double kept);

    int light_cells() const { return lights_.size(); }
    int receiver_cells() const { return receivers_.size(); }
    // -1: the point is in no cell, and nothing is connected there.
    int light_cell(const Point& p, const Normal& n) const { return lights_.find(p, n); }
    int receiver_cell(const Point& p, const Normal& n) const { return receivers_.find(p, n); }

    // Sets P(L|K) for one K, in proportion to `light`; one of them is above 0.
    void set(int receiver_cell, std::span<const double> light);

    // κ in a usual pass; 0 if one of the cells is -1.
    float density(int receiver_cell, int light_cell) const {
        if (receiver_cell < 0 || light_cell < 0) return 0;
        return probability(receiver_cell, light_cell) /
               expected_[static_cast<size_t>(light_cell)];
    }
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
        return &cumulative_[static_cast<size_t>(receiver_cell) * expected_.size()];
    }

    SurfaceCells receivers_;
    SurfaceCells lights_;
    std::vector<float> expected_;    // V̄, by light cell
    std::vector<float> kept_;        // by light cell, 1/lm
    std::vector<float> cumulative_;  // [K][L], the last of each row is 1
};

}  // namespace dapple
