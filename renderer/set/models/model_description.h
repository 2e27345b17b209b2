// An OBJ model and its MTL files as written, in the file's own units and axes. Only polygons have
// become triangles, and negative indices positive ones.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "base/problems.h"

namespace dapple {

// One `newmtl`. Colours are linear Rec.709 as the file gives them.
struct ModelMaterial {
    std::string name;
    Place place;
    std::array<float, 3> diffuse{0.5F, 0.5F, 0.5F};  // Kd
    float opacity = 1;                               // d, or 1 - Tr
    std::string diffuse_map;                         // map_Kd: path on disk; empty: none
    std::string opacity_map;                         // map_d
    Place diffuse_map_place;                         // of the file name, for messages
    Place opacity_map_place;
};

struct ModelCorner {
    int32_t position = -1;
    int32_t uv = -1;      // -1: not given
    int32_t normal = -1;  // -1: not given
};

struct ModelTriangle {
    std::array<ModelCorner, 3> corners;
    int32_t material = -1;         // index into materials; -1: no usemtl before it
    uint32_t smoothing_group = 0;  // 0: off
    int32_t line = 0;              // of the face, for messages
};

struct ModelDescription {
    std::string path;
    std::vector<std::array<float, 3>> positions;
    std::vector<std::array<float, 3>> normals;
    std::vector<std::array<float, 2>> uvs;
    std::vector<ModelTriangle> triangles;
    std::vector<ModelMaterial> materials;
};

}  // namespace dapple
