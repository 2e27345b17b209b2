#include "desk/new_set.h"

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "new/starter_set.h"

namespace dapple {

std::string path_of_new_set() {
    std::string path = "untitled.toml";
    std::error_code error;
    for (int i = 2; std::filesystem::exists(path, error); ++i) {
        path = "untitled-" + std::to_string(i) + ".toml";
    }
    return path;
}

std::string first_set_text() {
    StarterRoom room;
    room.title = "A small room";
    return starter_set_text(room);
}

std::string new_set_text(const nlohmann::ordered_json& answers) {
    StarterRoom room;
    room.title = answers.at("title");
    room.width = answers.at("room").at(0);
    room.depth = answers.at("room").at(1);
    room.height = answers.at("room").at(2);
    room.distance = answers.at("distance");
    room.lens_mm = answers.at("lens");
    room.figure.reset();
    if (!answers.at("figure").is_null()) room.figure = answers.at("figure").get<double>();
    room.is_seated = room.figure && answers.value("seated", false);
    room.is_portrait = answers.value("portrait", false);
    room.reflectance = answers.value("walls", room.reflectance);
    const std::string problem = starter_problem(room);
    if (!problem.empty()) throw std::invalid_argument(problem);
    return starter_set_text(room);
}

std::string folder_of_set(const std::string& set) {
    return std::filesystem::absolute(set).lexically_normal().parent_path().string();
}

std::string path_for_name(const std::string& set,
                          const std::string& folder,
                          const std::string& name) {
    const std::string stem =
        file_stem_for(name.ends_with(".toml") ? name.substr(0, name.size() - 5) : name);
    if (std::all_of(name.begin(), name.end(), [](char c) { return c == ' '; })) {
        throw std::invalid_argument("the set needs a name");
    }
    const std::filesystem::path here = std::filesystem::path(set).parent_path();
    if (folder.empty() || folder == folder_of_set(set)) return (here / (stem + ".toml")).string();
    std::error_code error;
    if (!std::filesystem::is_directory(here / folder, error)) {
        throw std::invalid_argument(folder + ": there is no such folder");
    }
    return (here / folder / (stem + ".toml")).string();
}

}  // namespace dapple
