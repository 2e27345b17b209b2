// The materials of an OBJ model: those of the MTL files that it names, and those that its faces
// name.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "set/models/model_description.h"
#include "set/models/model_report.h"

namespace dapple {

class ObjMaterials {
  public:
    // `folder` is the model's. Problems of the MTL files go to `problems`, those of the model to
    // `report`.
    ObjMaterials(std::string folder, Problems& problems, ModelReport& report);

    // Reads the MTL files of a `mtllib` statement; `names` is the rest of its line. A file that was
    // read before is not read again.
    void read_libraries(std::string_view names, int line, int column);

    // Returns the index of the material that a `usemtl` line names, -1 if it names none. A name
    // that no MTL file defines becomes a grey material, so that a [[surface]] of the set file can
    // still change it.
    int32_t use(std::string_view name, const Place& place);

    // Returns the materials; their pictures have names, not paths. Call once, at the end.
    std::vector<ModelMaterial> take();

  private:
    void read_library(std::string_view name, const Place& place);
    void add(ModelMaterial material);
    int32_t add_undefined(std::string_view name, const Place& place);
    std::string nearest_defined(std::string_view name) const;

    std::string folder_;
    Problems& problems_;
    ModelReport& report_;
    std::vector<ModelMaterial> materials_;
    bool lacks_library_ = false;  // an MTL file is missing, and this is noted
    size_t defined_ = 0;          // materials_[0 … defined_) are from MTL files
    std::unordered_map<std::string, int32_t> index_of_name_;
    std::unordered_set<std::string> lines_read_;
    std::unordered_set<std::string> files_read_;
};

}  // namespace dapple
