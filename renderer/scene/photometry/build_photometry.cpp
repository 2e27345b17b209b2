#include "scene/photometry/build_photometry.h"

#include <algorithm>
#include <cctype>
#include <filesystem>

#include "scene/checks.h"

namespace dapple {

namespace {

std::string ending_of(const std::string& path) {
    std::string ending = std::filesystem::path(path).extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(), [](unsigned char c) {
        return static_cast<char>(std::tolower(c));
    });
    return ending;
}

}  // namespace

std::optional<PhotometricFile> build_photometry(const Field<std::string>& file,
                                                const Direction& axis,
                                                Problems& problems) {
    const std::string path = path_named_by(file);
    const std::string ending = ending_of(file.value);
    std::error_code code;
    if (!std::filesystem::is_regular_file(path, code)) {
        problems.add(file.place, file.key, "is \"" + file.value + "\"; there is no such file");
        return std::nullopt;
    }
    if (ending == ".ies") return build_ies(path, axis, problems);
    if (ending == ".ldt") return build_eulumdat(path, problems);
    problems.add(file.place,
                 file.key,
                 "is \"" + file.value + "\"; must be an IES file, .ies, or a EULUMDAT file, .ldt");
    return std::nullopt;
}

}  // namespace dapple
