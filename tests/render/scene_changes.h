// What is changed about a set on the desk, one of each kind, for the room with everything.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "render/test_scenes.h"

namespace dapple::test {

struct SceneChange {
    std::string what;
    std::function<void(Scene&)> apply;
};

inline std::vector<SceneChange> scene_changes() {
    return {
        {"a glass is moved", [](Scene& s) { s.glasses[0].position.x += 0.2F; }},
        {"a glass is turned", [](Scene& s) { s.glasses[2].tilt = 0.1F; }},
        {"a fixture is moved",
         [](Scene& s) {
             s.fixtures[1].position.z -= 0.3F;
             s.fixtures[1].axis = glm::normalize(Point(0.2F, -1, -1) - s.fixtures[1].position);
         }},
        {"the camera is moved",
         [](Scene& s) {
             s.camera.position.x -= 0.3F;
             s.camera.frame =
                 looking_frame(glm::normalize(Point(0, -0.3F, -2) - s.camera.position));
         }},
        {"a surface gets darker", [](Scene& s) { s.materials[0].reflectance = Rgb(0.2F); }},
        {"a wall becomes cloth that light passes",
         [](Scene& s) { s.boards[3].material = s.boards[0].material; }},
        {"a glass is emptied", [](Scene& s) { s.glasses[2].liquid = kNoMaterial; }},
        {"a glass is taken out", [](Scene& s) { s.glasses.erase(s.glasses.begin()); }},
        {"a board is taken out", [](Scene& s) { s.boards.erase(s.boards.begin() + 1); }},
        {"a glass is added",
         [](Scene& s) {
             s.glasses.push_back(ball_at(Point(-0.9F, -1.1F, 0.3F), 0.3F, s.glasses[0].material));
         }},
        {"a fixture is added",
         [](Scene& s) {
             s.fixtures.push_back(
                 fixture_of(FixtureForm::kPanel, Point(0, 1.2F, 0.5F), Point(0, -1, 0), 200));
         }},
        {"a fixture is taken out", [](Scene& s) { s.fixtures.pop_back(); }},
    };
}

}  // namespace dapple::test
