#include "scene/photometry/build_photometry.h"

#include <filesystem>

#include "scene/checks.h"
#include "set/text_file.h"

namespace dapple {

std::optional<PhotometricFile> build_photometry(const Field<std::string>& file,
                                                const Direction& axis,
                                                Problems& problems) {
    if (!check_exists(file, problems)) return std::nullopt;
    const std::string path = path_named_by(file);
    const std::string ending = lower_case(std::filesystem::path(file.value).extension().string());
    if (ending == ".ies") return build_ies(path, axis, problems);
    if (ending == ".ldt") return build_eulumdat(path, problems);
    problems.add(file.place,
                 file.key,
                 "is \"" + file.value + "\"; must be an IES file, .ies, or a EULUMDAT file, .ldt");
    return std::nullopt;
}

}  // namespace dapple
