#include "transport/stored_vertices.h"

#include "base/fill_in_steps.h"
#include "base/parallel.h"

namespace dapple {

StoredVertices::StoredVertices(const std::vector<StoredVertexList>& blocks, int light_cells)
    : first_(static_cast<size_t>(light_cells) + 1) {
    for (const StoredVertexList& block : blocks) {
        stop_if_asked();
        for (const StoredVertex& v : block) ++first_[static_cast<size_t>(v.light_cell) + 1];
    }
    for (size_t i = 1; i < first_.size(); ++i) first_[i] += first_[i - 1];
    stop_if_asked();
    grow_in_steps(vertices_, first_.back());
    std::vector<size_t> next(first_.begin(), first_.end() - 1);
    for (const StoredVertexList& block : blocks) {
        stop_if_asked();
        for (const StoredVertex& v : block) {
            vertices_[next[static_cast<size_t>(v.light_cell)]++] = v;
        }
    }
}

}  // namespace dapple
