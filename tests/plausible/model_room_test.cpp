// Things outside a room that is a model, 6 x 4 m with a corner at the origin, as drawings have it.
#include <array>
#include <filesystem>

#include "plausible/staged_text.h"

using namespace dapple;
using namespace dapple::test;

namespace {

const std::string kCorners = R"(v 0 0 0
v 6 0 0
v 6 0 4
v 0 0 4
v 0 3 0
v 6 3 0
v 6 3 4
v 0 3 4
)";
const std::string kClosed = kCorners + "f 1 2 3 4\nf 5 6 7 8\nf 1 2 6 5\nf 1 4 8 5\nf 2 3 7 6\n";
const std::string kFrontWall = "f 3 4 8 7\n";

// The set in a folder of its own, with the model beside it.
std::vector<std::string> doubts_in(const std::string& model, const std::string& set) {
    const auto folder = std::filesystem::temp_directory_path() / "dapple_model_room_test";
    std::filesystem::create_directories(folder);
    std::ofstream(folder / "room.obj") << model;
    return doubts_about(set, (folder / "set.toml").string());
}

std::string set_with(const std::string& camera, const std::string& figure, const std::string& key) {
    return "[room]\nmodel = \"room.obj\"\n[camera]\nposition = " + camera +
           "\naim = \"figure\"\nfocal_length_mm = 35\nframe_px = [120, 80]\n"
           "[[stand_in]]\nname = \"figure\"\nposition = " +
           figure + "\n[[fixture]]\nname = \"key\"\nkit = \"led-spot-40\"\nposition = " + key +
           "\naim = \"figure face\"\n";
}

int count_told(const std::vector<std::string>& lines, const std::string& says) {
    int count = 0;
    for (const std::string& line : lines) count += line.find(says) != std::string::npos ? 1 : 0;
    return count;
}

const std::string kOutside = "is outside the room: the model's walls are before it";
const std::string kIn = "[3, 1.5, 3.4]";
const std::string kFigureIn = "[2.4, 0, 1.2]";
const std::string kKeyIn = "[4.2, 2.3, 2.6]";

}  // namespace

TEST_CASE("a figure, a camera and a fixture outside the walls of a model are told") {
    const std::string room = kClosed + kFrontWall;
    struct Case {
        std::string camera, figure, key, of;
    };
    for (const Case& c :
         std::vector<Case>{{kIn, "[-0.6, 0, -0.6]", kKeyIn, "stand_in \"figure\": position"},
                           {"[3, 1.5, 7]", kFigureIn, kKeyIn, "camera: position"},
                           {kIn, kFigureIn, "[-1, 2.3, 2]", "fixture \"key\": position"}}) {
        const std::vector<std::string> lines = doubts_in(room, set_with(c.camera, c.figure, c.key));
        INFO(c.of << "\n" << joined(lines));
        CHECK(count_told(lines, c.of + ": " + kOutside) == 1);
        CHECK(count_told(lines, kOutside) == 1);
        CHECK(count_told(lines, "goes from x = 0 to 6 and from z = 0 to 4") == 1);
    }
}

TEST_CASE("nothing is told inside, or where a wall was left out for the camera and a lamp") {
    for (const auto& [model, camera, key] :
         {std::array{kClosed + kFrontWall, kIn, kKeyIn},
          std::array{kClosed, std::string("[3, 1.5, 5.5]"), std::string("[4.2, 2.3, 5]")}}) {
        const std::vector<std::string> lines = doubts_in(model, set_with(camera, kFigureIn, key));
        INFO(joined(lines));
        CHECK(count_told(lines, "outside") == 0);
    }
}

TEST_CASE("no message moves a fixture through a wall") {
    const std::vector<std::string> lines =
        doubts_in(kClosed + kFrontWall, set_with(kIn, "[-0.6, 0, -0.6]", "[1.5, 2.3, 0.8]"));
    INFO(joined(lines));
    CHECK(count_told(lines, "stops the beam") == 1);
    CHECK(count_told(lines, "; move one of them") == 1);
    CHECK(count_told(lines, "passes from") == 0);
}

TEST_CASE("a model in inches without its unit is told with the units that would fit") {
    const auto lines_of = [](const std::string& height, const std::string& unit) {
        const std::string high = " " + height + " ";
        const std::string room = "v 0 0 0\nv 240 0 0\nv 240 0 220\nv 0 0 220\nv 0" + high +
                                 "0\nv 240" + high + "0\nv 240" + high + "220\nv 0" + high +
                                 "220\nf 1 2 3 4\nf 5 6 7 8\nf 1 2 6 5\nf 1 4 8 5\nf 2 3 7 6\n" +
                                 kFrontWall;
        std::string set = set_with(kIn, kFigureIn, kKeyIn);
        set.insert(set.find("[camera]"), unit);
        return doubts_in(room, set);
    };
    const std::vector<std::string> inches = lines_of("102", "");
    INFO(joined(inches));
    REQUIRE(inches.size() == 1);
    CHECK(count_told(inches,
                     "room: model: the room is 240 x 220 m and 102 m high; this looks like inches: "
                     "unit = \"in\" (2.6 m high)") == 1);
    const std::vector<std::string> two = lines_of("250", "");
    REQUIRE(two.size() == 1);
    CHECK(count_told(two,
                     "this looks like centimetres or inches: unit = \"cm\" (2.5 m high) or unit = "
                     "\"in\" (6.4 m high)") == 1);
    CHECK(count_told(lines_of("102", "unit = \"in\"\n"), "looks like") == 0);
    // With a ceiling of 30 m it may be a church.
    CHECK(count_told(lines_of("30", ""), "looks like") == 0);
}
