// Reads an OBJ model and the MTL files it names into an ObjDescription.
//
// Taken: v vt vn f usemtl mtllib s, and newmtl Kd d Tr map_Kd map_d. Polygons of any shape come as
// triangles in their own winding. The model's unit and up axis are as in the file.
// Trouble goes to `problems` with line and column, at most kMaxProblemsPerFile (obj_report.h) for
// each file; the description then holds what could be read and all its indices are valid.
//
// Why not tinyobjloader here: it gives no line and column, takes numbers that it cannot read as 0,
// parts names at blanks, joins no lines, and hands on indices that point at nothing. The tests use
// it as an independent witness instead (tests/set/obj/obj_witness_test.cpp).
#pragma once

#include <string>
#include <string_view>

#include "base/problems.h"
#include "set/obj/obj_description.h"

namespace dapple {

ObjDescription read_obj(const std::string& path, Problems& problems);

// The same for text already in memory. `path` names it in messages and says in which folder its
// MTL files are looked for.
ObjDescription read_obj_text(std::string_view text, const std::string& path, Problems& problems);

}  // namespace dapple
