#include "scene/models/read_model.h"

#include <filesystem>
#include <system_error>

#include "scene/checks.h"
#include "set/obj/read_obj.h"

namespace dapple {

std::optional<ObjDescription> read_model(const Field<std::string>& model, Problems& problems) {
    const std::string path = path_named_by(model);
    std::error_code code;
    if (!std::filesystem::exists(path, code)) {
        problems.add(model.place, model.key, "is \"" + model.value + "\"; there is no such file");
        return std::nullopt;
    }
    const size_t problems_before = problems.all().size();
    try {
        ObjDescription obj = read_obj(path, problems);
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
