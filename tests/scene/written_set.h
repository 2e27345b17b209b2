// Builds scenes from sets given as text, with models beside them in a temporary folder.
#pragma once

#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "scene/build_scene.h"
#include "set/read_set.h"

namespace dapple {

inline const std::string kCamera = "[camera]\nposition = [0, 1, 2]\naim = [0, 1, 0]\n";
inline const std::string kRoom = "[room]\nsize_m = [4, 5, 3]\n";
inline const std::string kFixture =
    "[[fixture]]\nname = \"key\"\nposition = [1, 2, 1]\naim = [0, 1, 0]\nbeam_angle_deg = 30\n"
    "output_lm = 1000\n";

// A value that was stored as a float.
inline doctest::Approx near(double value) {
    return doctest::Approx(value).epsilon(1e-6);
}

class WrittenSet {
  public:
    WrittenSet() {
        static int count = 0;
        folder_ =
            std::filesystem::temp_directory_path() /
            ("dapple_scene_tests_" + std::to_string(::getpid()) + "_" + std::to_string(count++));
        std::filesystem::create_directories(folder_);
    }
    ~WrittenSet() { std::filesystem::remove_all(folder_); }
    WrittenSet(const WrittenSet&) = delete;
    WrittenSet& operator=(const WrittenSet&) = delete;

    WrittenSet& file(const std::string& name, const std::string& text) {
        std::ofstream(folder_ / name, std::ios::binary) << text;
        return *this;
    }

    WrittenSet& folder(const std::string& name) {
        std::filesystem::create_directories(folder_ / name);
        return *this;
    }

    Scene build(const std::string& text) {
        problems = Problems();
        images_read.clear();
        const SetDescription set = read_set_text(text, (folder_ / "set.toml").string(), problems);
        return build_scene(
            set, [&](const PictureSource& picture) { return read_image(picture); }, problems);
    }

    // Builds a set that must have no problems.
    Scene build_clean(const std::string& text) {
        Scene scene = build(text);
        for (const std::string& line : lines()) FAIL_CHECK(line);
        return scene;
    }

    // The lines of problems and notes, without the folder.
    std::vector<std::string> lines() const { return without_folder(problems.all()); }
    std::vector<std::string> notes() const { return without_folder(problems.notes()); }

    Problems problems;
    std::vector<std::string> images_read;

  private:
    Texture read_image(const PictureSource& picture) {
        const std::string& path = picture.path;
        if (!picture.bytes && !std::filesystem::exists(path)) throw FileError(path, "no such file");
        images_read.push_back(path);
        Texture texture;
        texture.name = path;
        texture.width = texture.height = 1;
        texture.texels = {255, 128, 0};
        return texture;
    }

    std::vector<std::string> without_folder(const std::vector<Problem>& list) const {
        const std::string prefix = folder_.string() + "/";
        std::vector<std::string> lines;
        for (const Problem& problem : list) {
            std::string line = to_string(problem);
            for (size_t at = line.find(prefix); at != std::string::npos; at = line.find(prefix)) {
                line.erase(at, prefix.size());
            }
            lines.push_back(line);
        }
        return lines;
    }

    std::filesystem::path folder_;
};

// A unit cube on the origin with outward faces, 1-based OBJ indices from `first`.
inline std::string cube_obj(int first = 1, double side = 1, bool inverted = false) {
    std::string text;
    for (int i = 0; i < 8; ++i) {
        text += "v " + std::to_string(side * ((i & 1) - 0.5)) + " " +
                std::to_string(side * (((i >> 1) & 1) - 0.5)) + " " +
                std::to_string(side * (((i >> 2) & 1) - 0.5)) + "\n";
    }
    const int faces[6][4] = {
        {0, 4, 6, 2}, {1, 3, 7, 5}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 2, 3, 1}, {4, 5, 7, 6}};
    for (const auto& face : faces) {
        text += "f";
        for (int k = 0; k < 4; ++k) {
            text += " " + std::to_string(first + face[inverted ? 3 - k : k]);
        }
        text += "\n";
    }
    return text;
}

}  // namespace dapple
