// A model as written, in the file's own units and axes: OBJ with MTL, PLY or glTF. Only polygons
// have become triangles, and all indices count from 0.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "base/problems.h"

namespace dapple {

// What of a model is needed. Glass needs its shape alone.
enum class ModelParts { kAll, kShape };

// A picture that a model names, or that is part of the model's file.
struct ModelPicture {
    std::string path;                          // on disk, or how messages name it; empty: none
    std::shared_ptr<const std::string> bytes;  // of a picture inside the model's file
    Place place;                               // of its name, for messages
    std::string key;                           // "map_Kd"

    bool empty() const { return path.empty(); }
};

// One `newmtl`, or a material of glTF. Colours are linear Rec.709 as the file gives them.
struct ModelMaterial {
    std::string name;
    Place place;
    std::array<float, 3> diffuse{0.5F, 0.5F, 0.5F};  // Kd
    bool vertex_colours = false;                     // the vertices' colours multiply the colour
    float opacity = 1;                               // d, or 1 - Tr
    ModelPicture diffuse_map;                        // map_Kd
    ModelPicture opacity_map;                        // map_d
    bool opacity_is_alpha = false;  // of opacity_map; else its brightness is the opacity
    float opacity_cutoff = -1;      // from here on the map is opaque, below a hole; -1: as it is

    // Whether `diffuse` says something without the map that it multiplies. White does not.
    bool has_own_colour() const { return diffuse != std::array<float, 3>{1, 1, 1}; }
    // What is there of a map that cannot be read, for messages.
    const char* without_map() const {
        return has_own_colour() ? "; the material's own colour is used" : "; a mid grey is used";
    }
    void lose_map() {
        if (!has_own_colour()) diffuse = {0.5F, 0.5F, 0.5F};
    }
};

// Larger coordinates are mistakes; scanners write nan for what they have not seen.
inline constexpr double kFarthestVertex = 1e30;

struct ModelCorner {
    int32_t position = -1;
    int32_t uv = -1;      // -1: not given
    int32_t normal = -1;  // -1: not given
};

struct ModelTriangle {
    std::array<ModelCorner, 3> corners;
    int32_t material = -1;         // index into materials; -1: none
    uint32_t smoothing_group = 0;  // 0: off
};

struct ModelDescription {
    std::string path;
    std::vector<std::array<double, 3>> positions;  // doubles, as map coordinates are large
    std::vector<std::array<float, 3>> colours;     // of positions, linear Rec.709; empty: none
    std::vector<std::array<float, 3>> normals;
    std::vector<std::array<float, 2>> uvs;  // v upwards
    std::vector<ModelTriangle> triangles;
    std::vector<ModelMaterial> materials;
};

}  // namespace dapple
