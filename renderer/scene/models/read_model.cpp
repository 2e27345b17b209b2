#include "scene/models/read_model.h"

#include <map>

#include "base/kept_parts.h"
#include "scene/checks.h"
#include "set/obj/read_obj.h"

namespace dapple {

namespace {

// A model as it was read, and the contents of its MTL files at that time.
struct KeptModel {
    ObjDescription obj;
    std::map<std::string, std::string> materials;  // content by path
};

std::map<std::string, std::string> contents_of_materials(const ObjDescription& obj) {
    std::map<std::string, std::string> contents;
    for (const MtlDescription& material : obj.materials) {
        std::string& content = contents[material.place.file];
        if (content.empty()) content = content_key(material.place.file);
    }
    return contents;
}

size_t bytes_of(const ObjDescription& obj) {
    return obj.positions.size() * sizeof obj.positions[0] +
           obj.normals.size() * sizeof obj.normals[0] + obj.uvs.size() * sizeof obj.uvs[0] +
           obj.triangles.size() * sizeof obj.triangles[0];
}

// A model that was read without a problem or a note is not read again.
ObjDescription read_or_find_obj(const std::string& path, Problems& problems) {
    const std::string key = "model " + path + " " + content_key(path);
    const auto kept = std::static_pointer_cast<const KeptModel>(find_part(key));
    if (kept && contents_of_materials(kept->obj) == kept->materials) return kept->obj;
    const size_t told = problems.all().size() + problems.notes().size();
    ObjDescription obj = read_obj(path, problems);
    if (keeps_parts() && problems.all().size() + problems.notes().size() == told) {
        keep_part(key,
                  std::make_shared<const KeptModel>(KeptModel{obj, contents_of_materials(obj)}),
                  bytes_of(obj));
    }
    return obj;
}

}  // namespace

std::optional<ObjDescription> read_model(const Field<std::string>& model, Problems& problems) {
    if (!check_exists(model, problems)) return std::nullopt;
    const size_t problems_before = problems.all().size();
    try {
        ObjDescription obj = read_or_find_obj(path_named_by(model), problems);
        if (!obj.triangles.empty()) return obj;
        if (problems.all().size() == problems_before) {
            problems.add(model.place, model.key, "\"" + model.value + "\" has no faces");
        }
    } catch (const FileError& error) {
        problems.add(model.place, model.key, error.what());
    }
    return std::nullopt;
}

}  // namespace dapple
