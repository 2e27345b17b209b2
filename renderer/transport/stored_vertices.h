// Vertices of a pass's light walks that camera walks are connected to (connection_table.h).
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "geometry/packed_normal.h"
#include "geometry/surface_point.h"
#include "spectrum/packed_spectrum.h"

namespace dapple {

struct StoredVertex {
    SurfacePoint at;
    PackedSpectrum flux;  // lm per unit of the fixture's group spectra, over the kept share
    PackedNormal wo;      // back along the light walk
    float joinable = 0;   // per_join · join of the light walk (E86)
    float reversed = 0;   // sum of the light walk
    float shiny = 0;      // sum of the light walk if the vertex is shiny, else 0
    float by_sheet = 0;   // on the walk's first vertex: join · density of sheet sampling (E89)
    int16_t fixture = 0;
    int16_t edge = 0;  // number of the walk's edge that ends at the vertex
    int16_t light_cell = -1;
    bool behind_focus = false;  // some event before the vertex was a focusing one
};

using StoredVertexList = std::vector<StoredVertex>;

// The stored vertices of one pass by light cell. In a cell they are in the order of the blocks of
// light walks, so that draws from it are the same on any number of threads.
class StoredVertices {
  public:
    StoredVertices(const std::vector<StoredVertexList>& blocks, int light_cells);

    std::span<const StoredVertex> in_cell(int light_cell) const {
        const auto i = static_cast<size_t>(light_cell);
        return std::span(vertices_).subspan(first_[i], first_[i + 1] - first_[i]);
    }
    size_t bytes() const { return vertices_.size() * sizeof(StoredVertex); }

  private:
    std::vector<StoredVertex> vertices_;
    std::vector<size_t> first_;  // by light cell; one more at the end
};

}  // namespace dapple
