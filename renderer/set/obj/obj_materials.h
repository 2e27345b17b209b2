// The materials of an OBJ model: the MTL files that it names, and the names that its faces use.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "set/obj/obj_description.h"
#include "set/obj/obj_report.h"

namespace dapple {

class ObjMaterials {
  public:
    // `folder` is the model's. `problems` takes those of the MTL files, `report` the model's own.
    ObjMaterials(std::string folder, Problems& problems, ObjReport& report);

    // Reads the files that the rest of a `mtllib` line names; each file once.
    void read_libraries(std::string_view names, int line, int column);

    // The material of a `usemtl` line, -1 for an empty name. One that no file defines so far stays
    // in the model under its name, in the grey of a default material, so that a surface of the set
    // file may still give it a colour.
    int32_t use(std::string_view name, const Place& place);

    // Looks for the maps on disk and hands the materials over.
    std::vector<MtlDescription> take(const std::vector<ObjTriangle>& triangles);

  private:
    void read_library(std::string_view name, const Place& place);
    void add(MtlDescription material);
    int32_t add_undefined(std::string_view name, const Place& place);
    std::string nearest_defined(std::string_view name) const;

    std::string folder_;
    Problems& problems_;
    ObjReport& report_;
    std::vector<MtlDescription> materials_;
    size_t defined_ = 0;  // the first so many come from MTL files
    std::unordered_map<std::string, int32_t> index_of_name_;
    std::unordered_set<std::string> lines_read_;
    std::unordered_set<std::string> files_read_;
};

}  // namespace dapple
