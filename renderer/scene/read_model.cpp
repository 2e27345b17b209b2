#include "scene/read_model.h"

#include "scene/checks.h"
#include "set/read_obj.h"

namespace dapple {

std::optional<ObjDescription> read_model(const Field<std::string>& model,
                                         const std::string& set_path,
                                         Problems& problems) {
    const size_t problems_before = problems.all().size();
    try {
        ObjDescription obj = read_obj(path_beside(set_path, model.value), problems);
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
