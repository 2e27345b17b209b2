#include "result_owner.h"

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "base/problems.h"

namespace dapple {

namespace fs = std::filesystem;

std::string absolute_set(const std::string& set_path) {
    std::error_code error;
    const fs::path path = fs::weakly_canonical(set_path, error);
    return error ? fs::absolute(set_path).lexically_normal().string() : path.string();
}

void check_same_set(const std::string& json_path, const std::string& set) {
    std::ifstream file(json_path, std::ios::binary);
    if (!file || set.empty()) return;
    const nlohmann::json results = nlohmann::json::parse(file, nullptr, false);
    if (!results.is_object() || !results.contains("set") || !results["set"].is_string()) return;
    const std::string owner = results["set"];
    std::error_code error;
    if (owner == set || !fs::exists(owner, error)) return;
    throw FileError(json_path,
                    "is a result of another set of this name, " + owner +
                        "; give another folder with -o, or move those results away");
}

}  // namespace dapple
