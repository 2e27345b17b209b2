#include "set/obj/obj_materials.h"

#include <utility>

#include "set/models/named_files.h"
#include "set/obj/obj_mtl.h"
#include "set/text_file.h"

namespace dapple {

ObjMaterials::ObjMaterials(std::string folder, Problems& problems, ModelReport& report)
    : folder_(std::move(folder)), problems_(problems), report_(report) {}

void ObjMaterials::read_libraries(std::string_view names, int line, int column) {
    if (!lines_read_.emplace(names).second) return;  // some exporters repeat the line
    for (const std::string_view name : split_file_names(folder_, names, ".mtl")) {
        const auto offset = static_cast<int>(name.data() - names.data());
        read_library(name, report_.place(line, column + offset));
    }
}

void ObjMaterials::read_library(std::string_view name, const Place& place) {
    const std::string path = find_named_file(folder_, name);
    if (path.empty()) {
        report_.note(place,
                     "mtllib",
                     "no such file: " + in_quotes(named_path(folder_, name)) +
                         "; its materials are a mid grey",
                     {"missing", "files"});
        lacks_library_ = true;
        return;
    }
    if (!files_read_.insert(path).second) return;
    std::vector<ModelMaterial> materials;
    read_mtl(path, materials, problems_);
    for (ModelMaterial& material : materials) add(std::move(material));
}

void ObjMaterials::add(ModelMaterial material) {
    const auto index = static_cast<int32_t>(materials_.size());
    const auto [known, is_new] = index_of_name_.try_emplace(material.name, index);
    if (is_new) {
        materials_.push_back(std::move(material));
        defined_ = materials_.size();
    } else {
        const Place& first = materials_[static_cast<size_t>(known->second)].place;
        report_.note(material.place,
                     "newmtl",
                     in_quotes(material.name) + " is defined already (" + to_string(first) +
                         "); the first one is used",
                     {"twice", "names"});
    }
}

int32_t ObjMaterials::use(std::string_view name, const Place& place) {
    auto found = index_of_name_.find(std::string(name));
    if (found == index_of_name_.end()) {
        const std::string_view without_comment = name.substr(0, name.find(" #"));
        found = index_of_name_.find(std::string(without_comment));
    }
    if (found != index_of_name_.end()) return found->second;
    return name.empty() ? -1 : add_undefined(name, place);
}

int32_t ObjMaterials::add_undefined(std::string_view name, const Place& place) {
    constexpr const char* kUndefined = "undefined";
    if (!lacks_library_) {
        const bool is_new = report_.is_new_note("usemtl", kUndefined);
        const std::string nearest = is_new ? nearest_defined(name) : "";
        report_.note(place,
                     "usemtl",
                     in_quotes(name) + " is in no MTL file; a mid grey is used" +
                         (nearest.empty() ? "" : " (the nearest is " + in_quotes(nearest) + ")"),
                     {kUndefined, "names"});
    }
    const auto index = static_cast<int32_t>(materials_.size());
    ModelMaterial material;
    material.name = name;
    material.place = place;
    index_of_name_.emplace(material.name, index);
    materials_.push_back(std::move(material));
    return index;
}

std::string ObjMaterials::nearest_defined(std::string_view name) const {
    constexpr size_t kLongest = 64;  // the search takes the square of it
    if (name.size() > kLongest) return "";
    std::vector<std::string> names;
    for (size_t i = 0; i < defined_; ++i) {
        if (materials_[i].name.size() <= kLongest) names.push_back(materials_[i].name);
    }
    return nearest_word(name, names);
}

std::vector<ModelMaterial> ObjMaterials::take() {
    return std::move(materials_);
}

}  // namespace dapple
