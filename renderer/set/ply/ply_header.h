// The header of a PLY file (Turk 1994, as publicly described): lines of text that say which
// elements follow, how many, and which values each of them has.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problems.h"

namespace dapple {

enum class PlyFormat { kAscii, kLittleEndian, kBigEndian };
enum class PlyType { kInt8, kUint8, kInt16, kUint16, kInt32, kUint32, kFloat, kDouble };

struct PlyProperty {
    std::string name;
    PlyType type = PlyType::kFloat;     // of the value, or of each value of a list
    std::optional<PlyType> count_type;  // of a list
};

struct PlyElement {
    std::string name;
    int64_t count = 0;
    int line = 0;
    std::vector<PlyProperty> properties;
};

struct PlyTexture {
    std::string file;
    Place place;
};

struct PlyHeader {
    PlyFormat format = PlyFormat::kAscii;
    std::vector<PlyElement> elements;
    std::vector<PlyTexture> textures;  // comment TextureFile NAME
    size_t size = 0;                   // bytes; the values follow
    int lines = 0;
};

int64_t ply_type_size(PlyType type);  // bytes, in binary files

// Returns nothing, with a problem, if the header cannot be read, or if the file is shorter than its
// counts need: at least a byte for each value.
std::optional<PlyHeader> read_ply_header(std::string_view bytes,
                                         const std::string& path,
                                         Problems& problems);

}  // namespace dapple
