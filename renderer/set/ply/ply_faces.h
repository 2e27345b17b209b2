// Makes triangles of the faces and strips of a PLY file.
#pragma once

#include <cstdint>
#include <vector>

#include "set/models/model_description.h"
#include "set/models/model_report.h"
#include "set/models/triangulate.h"

namespace dapple {

class PlyFaces {
  public:
    // Triangles are added to `model`, which already has all its vertices.
    PlyFaces(ModelDescription& model, bool uvs_of_vertices, ModelReport& report)
        : model_(model), uvs_of_vertices_(uvs_of_vertices), report_(report) {}

    // One row of an element of faces.
    struct Row {
        std::vector<double> corners;  // indices of vertices
        std::vector<double> uvs;      // two for each corner; empty: none
        double picture = 0;           // texnumber
        int64_t number = 0;           // of the face, from 1
        int line = 0;                 // 0: binary
    };
    void add_face(const Row& row);
    // A strip of triangles; -1 begins another one.
    void add_strips(const Row& row);

  private:
    bool read_corner(const Row& row, size_t i, ModelCorner& corner);
    bool is_finite(const ModelCorner& corner) const;
    void add_polygon(const Row& row);
    void add(const std::array<ModelCorner, 3>& corners, const Row& row);

    ModelDescription& model_;
    bool uvs_of_vertices_;
    ModelReport& report_;
    std::vector<ModelCorner> corners_;
    std::vector<std::array<double, 3>> outline_;
    Triangulator triangulator_;
};

}  // namespace dapple
