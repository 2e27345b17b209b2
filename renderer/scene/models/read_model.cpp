#include "scene/models/read_model.h"

#include <filesystem>

#include "scene/checks.h"
#include "set/gltf/read_gltf.h"
#include "set/obj/read_obj.h"
#include "set/ply/read_ply.h"
#include "set/text_file.h"

namespace dapple {

namespace {

// OBJ files are also given other endings.
ModelDescription read_by_ending(const std::string& path, ModelParts parts, Problems& problems) {
    const std::string ending = lower_case(std::filesystem::path(path).extension().string());
    if (ending == ".ply") return read_ply(path, problems, parts);
    if (ending == ".gltf" || ending == ".glb") return read_gltf(path, problems, parts);
    return read_obj(path, problems, parts);
}

}  // namespace

std::optional<ModelDescription> read_model(const Field<std::string>& model,
                                           ModelParts parts,
                                           Problems& problems) {
    if (!check_exists(model, problems)) return std::nullopt;
    const size_t problems_before = problems.all().size();
    try {
        ModelDescription description = read_by_ending(path_named_by(model), parts, problems);
        if (!description.triangles.empty()) return description;
        if (problems.all().size() == problems_before) {
            problems.add(model.place, model.key, "\"" + model.value + "\" has no faces");
        }
    } catch (const FileError& error) {
        problems.add(model.place, model.key, error.what());
    }
    return std::nullopt;
}

}  // namespace dapple
