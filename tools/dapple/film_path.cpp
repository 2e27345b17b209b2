#include "film_path.h"

#include <algorithm>
#include <filesystem>
#include <vector>

#include "base/problems.h"

namespace dapple {

std::string find_film(const std::string& path) {
    namespace fs = std::filesystem;
    std::error_code error;
    if (!fs::is_directory(path, error)) return path;
    std::vector<std::string> films;
    for (const auto& entry : fs::directory_iterator(path, error)) {
        if (entry.path().extension() == ".exr") films.push_back(entry.path().string());
    }
    if (error) throw FileError(path, error.message());
    if (films.empty()) throw FileError(path, "holds no .exr; give the folder of a render");
    std::sort(films.begin(), films.end());
    if (films.size() > 1) {
        throw FileError(path,
                        "holds " + std::to_string(films.size()) +
                            " .exr files; name one, such as " + films.front());
    }
    return films.front();
}

std::string film_stem(const std::string& path) {
    return std::filesystem::path(path).stem().string();
}

}  // namespace dapple
