// The number of camera walks of each pixel (E83).
#include "render/prepare/pixel_walks.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace dapple;

namespace {

Scene scene_of_two_materials() {
    Scene scene;
    scene.materials.resize(2);
    scene.materials[1].kind = MaterialKind::kGlass;
    return scene;
}

// A frame of 40 × 20 px with a rectangle of glass.
FirstHits frame_with_glass(int x0, int y0, int x1, int y1) {
    FirstHits hits;
    hits.width = 40;
    hits.height = 20;
    hits.surface.assign(800, 0);
    for (int y = y0; y < y1; ++y) {
        for (int x = x0; x < x1; ++x) hits.surface[static_cast<size_t>(y * 40 + x)] = 1;
    }
    return hits;
}

}  // namespace

TEST_CASE("if few pixels see glass or its rim, each of them has eight walks") {
    const auto walks = count_pixel_walks(scene_of_two_materials(), frame_with_glass(10, 5, 12, 7));
    CHECK(std::count(walks.begin(), walks.end(), 8) == 4 * 4);
    CHECK(std::count(walks.begin(), walks.end(), 1) == 800 - 4 * 4);
    CHECK(walks[4 * 40 + 9] == 8);
    CHECK(walks[3 * 40 + 9] == 1);
}

TEST_CASE("glass adds less than a third to the number of walks of a frame") {
    const Scene scene = scene_of_two_materials();
    for (const int x1 : {6, 9, 14, 25, 40}) {
        const auto walks = count_pixel_walks(scene, frame_with_glass(0, 0, x1, 20));
        int all = 0;
        for (const int n : walks) all += n;
        CAPTURE(x1);
        CHECK(all <= 800 * 1.3 + 1);
        CHECK(*std::min_element(walks.begin(), walks.end()) == 1);
    }
}

TEST_CASE("pixels that see no glass or no surface have one walk each") {
    const Scene scene = scene_of_two_materials();
    FirstHits hits = frame_with_glass(0, 0, 0, 0);
    std::fill(hits.surface.begin(), hits.surface.begin() + 100, kNoMaterial);
    const auto walks = count_pixel_walks(scene, hits);
    CHECK(std::count(walks.begin(), walks.end(), 1) == 800);
}
