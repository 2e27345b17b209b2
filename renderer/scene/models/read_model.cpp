#include "scene/models/read_model.h"

#include "scene/checks.h"
#include "set/obj/read_obj.h"

namespace dapple {

std::optional<ModelDescription> read_model(const Field<std::string>& model, Problems& problems) {
    if (!check_exists(model, problems)) return std::nullopt;
    const size_t problems_before = problems.all().size();
    try {
        ModelDescription obj = read_obj(path_named_by(model), problems);
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
