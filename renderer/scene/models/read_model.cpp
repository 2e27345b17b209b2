#include "scene/models/read_model.h"

#include <filesystem>
#include <map>

#include "base/kept_parts.h"
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

// A model as it was read, and the contents of its MTL files at that time.
struct KeptModel {
    ModelDescription model;
    std::map<std::string, std::string> materials;  // content by path
};

std::map<std::string, std::string> contents_of_materials(const ModelDescription& model) {
    std::map<std::string, std::string> contents;
    for (const ModelMaterial& material : model.materials) {
        std::string& content = contents[material.place.file];
        if (content.empty()) content = content_key(material.place.file);
    }
    return contents;
}

size_t bytes_of(const ModelDescription& model) {
    return model.positions.size() * sizeof model.positions[0] +
           model.colours.size() * sizeof model.colours[0] +
           model.normals.size() * sizeof model.normals[0] + model.uvs.size() * sizeof model.uvs[0] +
           model.triangles.size() * sizeof model.triangles[0];
}

// A model that was read without a problem or a note is not read again. glTF is: its vertices may be
// in files of their own.
ModelDescription read_or_find(const std::string& path, ModelParts parts, Problems& problems) {
    const std::string ending = lower_case(std::filesystem::path(path).extension().string());
    if (ending == ".gltf" || !keeps_parts()) return read_by_ending(path, parts, problems);
    const std::string key =
        "model " + std::to_string(static_cast<int>(parts)) + " " + path + " " + content_key(path);
    const auto kept = std::static_pointer_cast<const KeptModel>(find_part(key));
    if (kept && contents_of_materials(kept->model) == kept->materials) return kept->model;
    const size_t told = problems.all().size() + problems.notes().size();
    ModelDescription model = read_by_ending(path, parts, problems);
    if (problems.all().size() + problems.notes().size() == told) {
        keep_part(key,
                  std::make_shared<const KeptModel>(KeptModel{model, contents_of_materials(model)}),
                  bytes_of(model));
    }
    return model;
}

}  // namespace

std::optional<ModelDescription> read_model(const Field<std::string>& model,
                                           ModelParts parts,
                                           Problems& problems) {
    if (!check_exists(model, problems)) return std::nullopt;
    const size_t problems_before = problems.all().size();
    try {
        ModelDescription description = read_or_find(path_named_by(model), parts, problems);
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
