#include "set/models/find_pictures.h"

#include <map>

#include "set/models/model_report.h"
#include "set/models/named_files.h"
#include "set/text_file.h"

namespace dapple {

namespace {

class PictureFinder {
  public:
    explicit PictureFinder(Problems& problems) : problems_(problems) {}

    // Returns false if the material names a picture that is not there.
    bool find(ModelPicture& picture, bool is_used, const char* without) {
        if (picture.empty() || picture.bytes) return true;
        const std::string& file = picture.place.file;
        const std::string folder = folder_of(file);
        std::string found = find_named_file(folder, picture.path);
        const bool is_there = !found.empty();
        if (!is_there && is_used) {
            const std::string name = in_quotes(named_path(folder, picture.path));
            ModelReport& report = reports_.try_emplace(file, file, problems_).first->second;
            report.note(
                picture.place, picture.key, "no such file: " + name + without, {name, "materials"});
        }
        picture.path = std::move(found);
        return is_there;
    }

    void finish() {
        for (auto& [file, report] : reports_) report.finish();
    }

  private:
    Problems& problems_;
    std::map<std::string, ModelReport> reports_;  // by the file that names the pictures
};

std::vector<bool> used_materials(const ModelDescription& model) {
    std::vector<bool> is_used(model.materials.size(), false);
    for (const ModelTriangle& triangle : model.triangles) {
        if (triangle.material >= 0) is_used[static_cast<size_t>(triangle.material)] = true;
    }
    return is_used;
}

}  // namespace

void find_pictures(ModelDescription& model, Problems& problems) {
    const std::vector<bool> is_used = used_materials(model);
    PictureFinder finder(problems);
    for (size_t i = 0; i < model.materials.size(); ++i) {
        ModelMaterial& material = model.materials[i];
        if (!finder.find(material.diffuse_map, is_used[i], material.without_map())) {
            material.lose_map();
        }
        finder.find(material.opacity_map, is_used[i], "; the surface has no holes");
    }
    finder.finish();
}

}  // namespace dapple
