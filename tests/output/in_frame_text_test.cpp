// The list of what is in the frame, as lines and as JSON.
#include "output/in_frame_text.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

using namespace dapple;
using nlohmann::json;

namespace {

InFrame two_things() {
    InFrame frame{20, 10, {}, std::vector<float>(200, 0.0F)};
    frame.mask[3] = 1;
    InFrameThing stand;
    stand.name = "net";
    stand.kind = InFrameKind::kStand;
    stand.pixels = 12;
    stand.share = 0.06;
    stand.box = {0, 2, 4, 10};
    stand.touches = {true, false, false, true};
    stand.of_thing = Move{MoveWay::kLeft, 0.32};
    stand.of_camera = Move{MoveWay::kRight, 0.3};
    InFrameThing jar;
    jar.name = "jar";
    jar.kind = InFrameKind::kGlass;
    jar.way = SeenWay::kInMirror;
    jar.pixels = 1;
    jar.share = 0.005;
    jar.box = {5, 5, 6, 6};
    frame.things = {stand, jar};
    return frame;
}

}  // namespace

TEST_CASE("each thing in the frame is one line with its place and its moves") {
    CHECK(in_frame_lines(two_things()) ==
          "in the frame: stand \"net\": 12 px (6 %), x 0 to 4, y 2 to 10, at the left and bottom "
          "edge; move it 0.32 m left, or the camera 0.30 m right\n"
          "in the frame: glass \"jar\" in a mirror: 1 px (0.5 %), x 5 to 6, y 5 to 6\n");
    CHECK(in_frame_lines({}).empty());
    InFrame stuck = two_things();
    stuck.things[0].of_thing.reset();
    stuck.things[0].of_camera.reset();
    CHECK(in_frame_lines(stuck).find("no move within the room takes it out") != std::string::npos);
}

TEST_CASE("a thing that is seen in several ways has one line") {
    InFrame frame = two_things();
    InFrameThing jar = frame.things[1];
    jar.way = SeenWay::kDirect;
    jar.pixels = 5;
    frame.things.push_back(jar);
    jar.way = SeenWay::kThroughGlass;
    jar.pixels = 2;
    frame.things.push_back(jar);
    const std::string lines = in_frame_lines(frame);
    CHECK(std::count(lines.begin(), lines.end(), '\n') == 2);
    CHECK(lines.find("glass \"jar\": 5 px (0.5 %), x 5 to 6, y 5 to 6, and 1 px in a mirror, and 2 "
                     "px through glass; no move") != std::string::npos);
}

TEST_CASE("the JSON has all of it, and null where no move is known") {
    const json list = json::parse(in_frame_json_text(two_things()));
    REQUIRE(list.size() == 2);
    CHECK(list[0]["name"] == "net");
    CHECK(list[0]["kind"] == "stand");
    CHECK(list[0]["seen"] == "direct");
    CHECK(list[0]["pixels"] == 12);
    CHECK(list[0]["share"] == 0.06);
    CHECK(list[0]["box_px"] == json({0, 2, 4, 10}));
    CHECK(list[0]["touches"] == json({"left", "bottom"}));
    CHECK(list[0]["move_out"]["thing"]["way"] == "left");
    CHECK(list[0]["move_out"]["camera"]["distance_m"] == 0.3);
    CHECK(list[1]["seen"] == "mirror");
    CHECK(list[1]["move_out"].is_null());
}

TEST_CASE("the mask is white where things are") {
    const Picture mask = mask_picture(two_things());
    CHECK(mask.width == 20);
    CHECK(mask.pixels[3] == Rgb(1));
    CHECK(mask.pixels[4] == Rgb(0));
}
