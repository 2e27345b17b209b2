// Reads an OBJ model and the MTL files that it names into an ModelDescription.
//
// Statements read: v (also with a colour) vt vn f usemtl mtllib s, and newmtl Kd d Tr map_Kd map_d.
// Polygons of any shape become triangles that keep their winding. The unit and the up axis stay as
// in the file. Problems have the line and the column of the first of their kind (model_report.h).
// The description then contains what could be read, and all its indices are valid. What a surface
// can do without is only noted: MTL files, pictures, normals and texture coordinates.
//
// tinyobjloader is not used here because it reports no line and column, reads bad numbers as 0,
// splits names at blanks, joins no lines and returns indices that refer to nothing. The tests use
// it as an independent witness (tests/set/obj/obj_witness_test.cpp).
#pragma once

#include <string>
#include <string_view>

#include "base/problems.h"
#include "set/models/model_description.h"

namespace dapple {

ModelDescription read_obj(const std::string& path,
                          Problems& problems,
                          ModelParts parts = ModelParts::kAll);

// The same for text in memory. Messages name it `path`, and its MTL files are looked for in the
// folder of `path`.
ModelDescription read_obj_text(std::string_view text,
                               const std::string& path,
                               Problems& problems,
                               ModelParts parts = ModelParts::kAll);

}  // namespace dapple
