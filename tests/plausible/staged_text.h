// Sets as texts, and what is doubted about them.
#pragma once

#include <doctest/doctest.h>

#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "plausible/find_doubts.h"
#include "scene/build_scene.h"
#include "set/read_set.h"

namespace dapple::test {

// A small room with a figure, a key through a jar, and a fill through a cloth. Nothing is wrong.
inline const std::string kGoodSet = R"([room]
size_m = [5.0, 6.0, 3.0]
reflectance = 0.4

[camera]
position = [0.3, 1.5, 2.6]
aim = [0.0, 1.2, -1.0]
focal_length_mm = 35
frame_px = [240, 160]
f_number = 2.8
shutter_s = 0.0166667
iso = 800
focus_m = 3.6

[[stand_in]]
name = "figure"
position = [0, 0, -1.0]

[[column]]
name = "pillar"
position = [1.5, 0, -1.8]
size_m = [0.3, 0.4]

[[fixture]]
name = "key"
kit = "led-spot-40"
position = [-1.6, 2.0, 0.9]
aim = [0, 1.4, -1.0]
stand = false

[[glass]]
name = "jar"
form = "jar"
surface = "plain"
position = [-1.24, 1.68, 0.475]
turn_deg = 0
tilt_deg = 0
fill = { liquid = "water", level = 0.5 }

[[fixture]]
name = "fill"
kit = "tungsten-150"
position = [1.7, 1.7, 1.2]
aim = [0, 1.3, -1.0]

[[diffuser]]
name = "cloth"
position = [1.27, 1.6, 0.63]
aim = [1.7, 1.7, 1.2]
size_m = [0.6, 0.6]
cloth = "silk"

[[meter]]
name = "face"
position = [0, 1.5, -0.8]
facing = [-1.6, 2.0, 0.9]

[[region]]
name = "back"
surface = "wall_back"
)";

// The text with one place changed, which must be there.
inline std::string changed(std::string text, const std::string& from, const std::string& to) {
    const size_t at = text.find(from);
    REQUIRE_MESSAGE(at != std::string::npos, from);
    return text.replace(at, from.size(), to);
}

inline std::string good_set_but(const std::string& from, const std::string& to) {
    return changed(kGoodSet, from, to);
}

// Lines of the doubts about a text that stands for a set file at `path`. Pictures are not read.
inline std::vector<std::string> doubts_about(const std::string& text,
                                             const std::string& path = DAPPLE_SOURCE_DIR
                                             "/scenes/set.toml") {
    Problems problems;
    const SetDescription written = read_set_text(text, path, problems);
    const auto grey = [](const PictureSource&) { return Texture{"grey", 1, 1, 1, false, {128}}; };
    const Scene scene = build_scene(written, grey, problems);
    for (const Problem& problem : problems.all()) FAIL(to_string(problem));
    const World world(scene);
    std::vector<std::string> lines;
    for (const Doubt& doubt : find_doubts({written, scene, world})) {
        lines.push_back(to_string(doubt).substr(path.size() + 1));
    }
    return lines;
}

inline std::string joined(const std::vector<std::string>& lines) {
    std::string all;
    for (const std::string& line : lines) all += line + "\n";
    return all;
}

inline std::string text_of_file(const std::string& path) {
    const std::ifstream file(path);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

}  // namespace dapple::test
